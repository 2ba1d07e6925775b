import { describe, expect, it } from 'vitest';
import { dayNumber } from '../src/calendar';
import { isFed } from '../src/plan';
import type { Scenario } from '../src/scenario';
import type { Verdict } from '../src/types';
import { seenLast, unfitUnder } from '../src/verdict/fields';
import { bandsOf } from '../src/verdict/fitting';
import { fewThatFit, headlineOf } from '../src/verdict/words';

const verdict = (standing: Partial<Verdict['standing']>, effective = 400): Verdict =>
  ({ members: 2000, alarms: [], steps: [{ effective: 900 }, { effective }], standing: { word: 'behind', days_ahead: null, days_least: null, days_most: null, ...standing } }) as unknown as Verdict;

describe('the headline of a verdict', () => {
  it('has its range, on whatever side it lies', () => {
    expect(headlineOf(verdict({ days_ahead: -6.2, days_least: -9, days_most: -3 }))).toEqual({ words: 'Behind, by about 6 days', range: '(3 to 9)' });
    expect(headlineOf(verdict({ word: 'ahead', days_ahead: 5, days_least: -1, days_most: 8 })).range).toBe('(a day behind to 8 ahead)');
    expect(headlineOf(verdict({ word: 'in_step', days_ahead: -1, days_least: -4, days_most: 2 }))).toEqual({ words: 'In step', range: '(4 days behind to 2 ahead)' });
    expect(headlineOf(verdict({ word: 'in_step', days_ahead: 1, days_least: 1, days_most: 3 })).range).toBe('(1 to 3 days ahead)');
    expect(headlineOf(verdict({ word: 'in_step', days_ahead: -1, days_least: -3, days_most: 0 })).range).toBe('(0 to 3 days behind)');
    expect(headlineOf(verdict({ word: 'lost' })).range).toBe('');
  });

  it('is sure only where enough colonies fit', () => {
    expect(fewThatFit(verdict({}))).toBeNull();
    expect(fewThatFit(verdict({}, 13))).toBe(13);
    expect(headlineOf(verdict({ days_ahead: -6 }, 13)).words).toBe('Perhaps behind, by about 6 days');
    expect(headlineOf(verdict({ word: 'in_step' }, 0.2)).words).toBe('Perhaps in step');
  });

  it('has no days where nothing tells how strong the colony is, and what cannot wait in their place', () => {
    const untold = verdict({ word: 'untold', days_ahead: -6, days_least: -9, days_most: -3 }, 13);
    expect(headlineOf(untold)).toEqual({ words: 'How it stands cannot be told', range: '' });
    expect(headlineOf({ ...untold, alarms: [{ alarm: 'many_mites' }] } as Verdict)).toEqual({ words: 'Mites are over the mark', range: '' });
  });
});

describe('what was seen', () => {
  it('at the last visit is that of the highest number', () => {
    const seen = [1, 2, 2].map((visit, place) => ({ visit, found: place }));
    expect(seenLast({ visits: 2, seen } as unknown as Verdict).map(({ found }) => found)).toEqual([1, 2]);
  });
});

describe('the colonies that fit what was found', () => {
  it('are bands that run straight between the dates of the forecast', () => {
    const spread = (name: string, low: number) => ({ name, unit: '', mean: 0, standard_error: 0, q05: low, q25: low + 1, median: low + 2, q75: low + 3, q95: low + 4 });
    const dates = ['2012-06-18', '2012-06-25'].map((date, week) => ({ date, measures: [spread('bees', 1000 + 700 * week), spread('brood_frames', 2 + week)] }));
    const view = bandsOf({ members: 500, forecast: { assumed_mites: null, dates, thresholds: [], risks: [] } } as unknown as Verdict);
    const visit = dayNumber('2012-06-18');
    expect(([5, 25, 50, 75, 95] as const).map((line) => view.at('bees', line, visit))).toEqual([1000, 1001, 1002, 1003, 1004]);
    expect(view.at('bees', 5, visit + 3)).toBeCloseTo(1300, 9);
    expect(view.at('brood_frames', 95, visit + 7)).toBe(7);
    expect(view.at('bees', 5, visit - 1)).toBeNull();
  });
});

describe('what does not fit', () => {
  const unfit = ['syrup', 'eggs', 'syrup', 'syrup'].map((what) => ({ date: '2012-06-11', what, chance: 0.01, text: what }));
  const of = { unfit } as unknown as Verdict;

  it('has syrup once under a plan without feed, however often it was taken', () => {
    expect(unfitUnder(of, false)).toEqual({ unfed: 3, unfit: [unfit[1]] });
    expect(unfitUnder(of, true)).toEqual({ unfed: 0, unfit });
  });

  it('knows a plan that feeds', () => {
    expect(isFed({} as Scenario)).toBe(false);
    expect(isFed({ feed: [], move: [{ date: '2012-06-01', patty: 0.5 }] } as unknown as Scenario)).toBe(true);
    expect(isFed({ feed: [{ from: '2012-05-01', to: '2012-06-01', kind: '1:1' }] } as Scenario)).toBe(true);
  });
});
