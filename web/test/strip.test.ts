import { beforeAll, describe, expect, it } from 'vitest';
import { dayNumber, isoDate } from '../src/calendar';
import { dayBy, daysBy } from '../src/keys';
import { type DayScale, dayX, labelWidth } from '../src/scales';
import { SeasonView } from '../src/season';
import { arrange, blank, type Shown } from '../src/strip/arrange';
import { axisMarks, tabPlace } from '../src/strip/axis';
import { brakeNames } from '../src/strip/brakes';
import { besideDays, bloomPlaces } from '../src/strip/labels';
import type { BloomTime, Catalogue, Outcome } from '../src/types';
import { beeCount } from '../src/units';
import { catalogue } from '../src/wasm/sim_wasm.js';
import { explorer, run, scenario } from './door';

const WIDE = blank({ width: 1200, larger: 1 });
const NARROW = blank({ width: 400, larger: 1 });
const MAY = dayNumber('2012-05-01');
const scale = (days: number, first = MAY): DayScale => ({ first, days, left: 126, width: 1000 });

/** Whether no two labels of a lane come nearer to each other than `gap`. */
function apart(labels: readonly { from: number; to: number; lane: number }[], gap: number): boolean {
  return labels.every((one, i) => labels.every((other, k) => i >= k || one.lane !== other.lane || one.to + gap <= other.from || other.to + gap <= one.from));
}

describe('keys', () => {
  it.each([
    ['ArrowLeft', false, 99],
    ['ArrowDown', false, 99],
    ['ArrowRight', false, 101],
    ['ArrowUp', true, 107],
    ['ArrowLeft', true, 93],
    ['Home', false, 50],
    ['End', true, 150],
    ['PageUp', false, null],
    ['a', false, null],
  ])('%s with Shift %s leads from 100 to %s', (key, shiftKey, to) => {
    expect(dayBy({ key, shiftKey }, 100, { first: 50, last: 150 })).toBe(to);
  });

  it('go on by days with arrows only', () => {
    expect(daysBy({ key: 'ArrowUp', shiftKey: true })).toBe(7);
    expect(daysBy({ key: 'Home', shiftKey: false })).toBeNull();
  });
});

describe('the axis', () => {
  const words = (days: number, layout = WIDE, tab: Parameters<typeof axisMarks>[4] = null) => axisMarks(MAY, scale(days), layout, 1, tab).map(({ text }) => text);

  it('has each day where there is room, and the weekday of the start where there is less', () => {
    expect(words(14)).toEqual(['May 2012', ...Array.from({ length: 13 }, (_, i) => String(i + 2))]);
    expect(words(62)).toEqual(['May 2012', '8', '15', '22', '29', 'June', '5', '12', '19', '26', 'July']);
    for (const { day, month } of axisMarks(MAY, scale(112), WIDE, 1, null)) expect(month || (day - MAY) % 7 === 0).toBe(true);
  });

  it('leaves a figure out that would be read with the name of the month after it', () => {
    const april = { ...scale(112), first: dayNumber('2012-04-30') };
    const marks = axisMarks(april.first, april, WIDE, 1, null);
    // 30 July, two days before August.
    expect(marks.map(({ day }) => isoDate(day))).not.toContain('2012-07-30');
    expect(marks.map(({ day }) => isoDate(day))).toContain('2012-07-23');
  });

  it('keeps the names of months beside the tab of a narrow strip, the first with its year', () => {
    const narrow = { first: MAY, days: 84, left: 0, width: 390 };
    const tab = tabPlace(dayX(narrow, MAY + 40), NARROW, 390);
    expect(axisMarks(MAY, narrow, NARROW, 1, tab).map(({ text }) => text)).toEqual(['May 2012', 'June', 'July']);
  });

  it('has months alone on a narrow strip', () => {
    expect(axisMarks(MAY, { first: MAY, days: 84, left: 0, width: 400 }, NARROW, 1, null).every(({ month }) => month)).toBe(true);
  });

  it('has the letters of months over most of a year, and the year where one begins', () => {
    const texts = words(330);
    expect(texts.filter((text) => /^\p{Lu}$/u.test(text)).length).toBeGreaterThan(8);
    expect(texts).toContain('2013');
  });

  it('leaves room for the tab: no figure behind it, and a month without its name', () => {
    const tab = tabPlace(dayX(scale(62), dayNumber('2012-06-01')), WIDE, 1200);
    const marks = axisMarks(MAY, scale(62), WIDE, 1, tab);
    expect(marks.find(({ day }) => isoDate(day) === '2012-06-01')).toMatchObject({ month: true, text: '' });
    for (const { day, month, text } of marks.filter(({ text }) => text)) {
      const at = dayX(scale(62), day);
      const half = labelWidth(text, WIDE.figure) / 2;
      if (!month) expect(at + half < tab.left || at - half > tab.left + tab.width).toBe(true);
    }
  });

  it('keeps the tab inside the strip', () => {
    for (const x of [0, 600, 1200]) {
      const { left, width } = tabPlace(x, WIDE, 1200);
      expect(left).toBeGreaterThanOrEqual(0);
      expect(left + width).toBeLessThanOrEqual(1200);
    }
    expect(tabPlace(600, WIDE, 1200)).toEqual({ left: 600 - 56, width: 112 });
  });
});

describe('labels', () => {
  it('stand after their days, before them at the end of the strip, and never on each other', () => {
    const items = [0, 3, 6, 30, 58, 61].map((at) => ({ day: MAY + at, text: 'deep box on' }));
    const placed = besideDays(items, scale(62), 13.5, 6, 3);
    expect(placed.map(({ anchor }) => anchor)).toEqual(['start', 'start', 'start', 'start', 'end', 'end']);
    const width = labelWidth('deep box on', 13.5) + 6;
    const boxes = placed.flatMap(({ day, anchor, lane }) => {
      const x = dayX(scale(62), day);
      return lane === null ? [] : [{ from: anchor === 'end' ? x - width : x, to: anchor === 'end' ? x : x + width, lane }];
    });
    expect(boxes.length).toBe(6);
    expect(apart(boxes, 8)).toBe(true);
  });

  it('have no lane where there are too many of them', () => {
    const items = [0, 1, 2, 3].map((at) => ({ day: MAY + at, text: 'the queen is out of her cage' }));
    expect(besideDays(items, scale(62), 13.5, 6, 2).map(({ lane }) => lane)).toEqual([0, 1, null, null]);
  });

  it('of blooms stand after the lens, before it, or on it', () => {
    const bloom = (plant: string, from: string, to: string) => ({ plant, from, to, nectar: 1, pollen: 1 }) as BloomTime;
    const all = [bloom('lime', '2012-05-10', '2012-05-20'), bloom('goldenrod and aster', '2012-06-20', '2012-07-30'), bloom('clover', '2012-04-01', '2012-09-01'), bloom('willow', '2012-03-01', '2012-03-20')];
    const placed = bloomPlaces(all, scale(62), WIDE);
    expect(Object.fromEntries(placed.map(({ plant, side }) => [plant, side]))).toEqual({ lime: 'after', 'goldenrod and aster': 'before', clover: 'on' });
    expect(new Set(placed.map(({ lane }) => lane)).size).toBe(2);
  });
});

describe('the names of the brakes', () => {
  const stretch = (brake: string, x: number, width: number) => ({ brake, words: brake, x, width });
  const plan = [stretch('caged', 126, 30), stretch('pollen', 156, 60), stretch('cold', 216, 30), stretch('pollen', 246, 400), stretch('nurses', 646, 80), stretch('her own rate', 726, 400)];

  it('stand once each: in the widest stretch where they hide no more than half of it, otherwise under the ribbon', () => {
    const { inside, under, lanes } = brakeNames(plan, [stretch('caged', 126, 30), stretch('food', 156, 970)], scale(112), WIDE);
    expect(inside.map(({ brake, x }) => [brake, x])).toEqual([['pollen', 246], ['her own rate', 726]]);
    expect(under.map(({ brake, lane }) => [brake, lane])).toEqual([['caged', 0], ['cold', 0], ['nurses', 0], ['food', 0]]);
    expect(lanes).toBe(1);
  });

  it('take as many lines as they need, and none where there are none', () => {
    const narrow = { first: MAY, days: 84, left: 0, width: 200 };
    const { inside, under, lanes } = brakeNames(plan.map((one) => ({ ...one, width: one.width / 5 })), [], narrow, NARROW, 'thin: without feed');
    expect(inside).toEqual([]);
    expect(under.at(-1)).toMatchObject({ brake: null, words: 'thin: without feed' });
    expect(lanes).toBeGreaterThan(1);
    expect(under.every(({ x, words }) => x + labelWidth(words, NARROW.figure) <= 200)).toBe(true);
    expect(brakeNames([stretch('pollen', 126, 400)], [], scale(112), WIDE)).toMatchObject({ under: [], lanes: 0 });
  });
});

describe('what stands in the rows', () => {
  let shown: Shown;
  beforeAll(() => {
    const plan = scenario('wet-spring.toml');
    shown = { plan: new SeasonView(run(explorer(), 'plan', plan), catalogue()), twin: null, scenario: plan, difference: null };
  });
  const sheet = { width: 1200, windowHeight: 800, larger: 1, onPaper: false };
  const whole = (): DayScale => ({ first: shown.plan.first, days: shown.plan.days, left: WIDE.left, width: 1000 });

  it('is what happens in the window, and rows without anything are left out', () => {
    const { seen, without, layout } = arrange(shown, whole(), sheet);
    expect(seen.length).toBeGreaterThan(0);
    expect(without).toContain('difference');
    expect(without).not.toContain('seen');
    expect(layout.rows.difference.height).toBe(0);
    const late = arrange(shown, { ...whole(), first: shown.plan.last - 2, days: 3 }, sheet);
    expect(late.without).toContain('seen');
    expect(late.layout.height).toBeLessThan(layout.height);
  });

  it('has a row for the difference where there is one, and grows with the window', () => {
    const difference = { measure: 'bees' as const, first: shown.plan.first, line: new Float64Array(shown.plan.days), tried: null };
    const some = arrange({ ...shown, difference }, whole(), sheet);
    expect(some.without).not.toContain('difference');
    const higher = arrange({ ...shown, difference }, whole(), { ...sheet, windowHeight: 1000 });
    expect(higher.layout.height).toBeGreaterThan(some.layout.height);
    // Higher than the paper holds beside a long plan.
    const paper = arrange({ ...shown, difference }, whole(), { ...sheet, onPaper: true });
    expect(paper.layout.height).toBeGreaterThan(some.layout.height);
  });
});

describe('a lost colony', () => {
  const brakes = ['her_rate', 'no_queen'].map((name) => ({ name, words: name }));
  const catalogue = { columns: [{ name: 'adult_bees' }], brakes, origins: [], queenStates: [] } as unknown as Catalogue;
  const outcome = { first: '2012-05-01', days: 3, values: Float64Array.of(900, 20, 0), brakes: Uint8Array.of(0, 1, 1) } as unknown as Outcome;
  const view = new SeasonView(outcome, catalogue);

  it('has no brake: there is no bee left, which is more than no queen', () => {
    const days = [0, 1, 2].map((day) => view.first + day);
    expect(days.map((day) => view.brake(day).name)).toEqual(['her_rate', 'no_queen', 'lost']);
    expect(days.map((day) => view.lost(day))).toEqual([false, false, true]);
    expect(view.brake(view.last).words).toBe('no bees left');
  });
});

describe('bees', () => {
  it('are rounded by the page as the model tells them', () => {
    for (const name of ['wet-spring.toml', 'overwintered.toml']) {
      const made = explorer();
      const season = new SeasonView(run(made, 'plan', scenario(name)), catalogue());
      for (let day = season.first; day <= season.last; day += 9) {
        const [sentence] = made.story('plan', isoDate(day), 'metric')?.sentences ?? [];
        const bees = sentence?.find(({ kind }: { kind: string }) => kind === 'bees')?.text;
        if (bees) expect(bees).toBe(`${beeCount(season.at('adult_bees', day))} bees`);
      }
    }
  });
});
