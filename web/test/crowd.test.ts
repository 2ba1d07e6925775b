import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { rangeBeside, rangeFitting } from '../src/crowd/beside';
import { BandsView, bandsBehind, daysOf } from '../src/crowd/bands';
import { Crowd, MEMBERS } from '../src/crowd/crowd.svelte';
import { dayNumber, isoDate } from '../src/calendar';
import type { Scenario } from '../src/scenario';
import type { Bands } from '../src/types';
import type { VisitBook } from '../src/visits';
import { openVisits, saveVisits } from '../src/wasm/sim_wasm.js';
import { explorer, scenario, thrown } from './door';

const visitsFile = (name: string) => readFileSync(new URL(`../../scenarios/visits/${name}`, import.meta.url));
const text = (value: unknown) => JSON.stringify(value);

/** Bands of so many members, lived in shares of this size. */
function bandsOf(members: number, size: number, change: (plan: Scenario) => void = () => undefined, file = 'wet-spring.toml'): Bands {
  const changed = scenario(file);
  change(changed);
  const plan = text(changed);
  const worker = explorer();
  const shares: number[] = [];
  for (let from = 0; from < members; from += size) shares.push(...worker.share(plan, 5, from, Math.min(from + size, members)));
  return worker.bands(plan, 5, Float64Array.from(shares));
}

describe('bands', () => {
  it('say how many mites were assumed, and have none where the plan says none', () => {
    expect(bandsOf(10, 10).assumedMites).toBe(0.8);
    const none = bandsOf(10, 10, (plan) => {
      plan.start.mites_per_100_bees = 0;
    });
    expect(none.assumedMites).toBeNull();
    expect(new BandsView(none).at('mites', 95, dayNumber(none.dates.at(-1) ?? ''))).toBe(0);
  });

  it('have the same bits for any shares', () => {
    const whole = bandsOf(30, 30);
    expect(whole.members).toBe(30);
    expect(bandsOf(30, 7)).toEqual(whole);
    expect(bandsOf(29, 7).values).not.toEqual(whole.values);
  });

  it('lie in order, and run straight between the dates that were looked at', () => {
    const bands = bandsOf(30, 30);
    const view = new BandsView(bands);
    const [a, b] = [dayNumber(bands.dates[3] ?? ''), dayNumber(bands.dates[4] ?? '')];
    const lines = ([5, 25, 50, 75, 95] as const).map((line) => view.at('bees', line, a) ?? Number.NaN);
    expect(lines).toEqual(lines.toSorted((x, y) => x - y));
    const middle = view.at('bees', 50, a + 1) ?? Number.NaN;
    expect(middle).toBeCloseTo((view.at('bees', 50, a) ?? 0) * 0.8 + (view.at('bees', 50, b) ?? 0) * 0.2, 6);
    const band = view.between('brood_frames', 5, 95, 1000);
    expect(band?.low.length).toBe(view.last - view.first + 1);
    expect(band?.high[a - view.first]).toBeCloseTo(1000 * (view.at('brood_frames', 95, a) ?? Number.NaN), 6);
    expect(view.at('bees', 5, view.first - 1)).toBeNull();
    expect(view.between('no such measure', 5, 95)).toBeNull();
  });

  it('are looked at around a move, with which bees leave at once', () => {
    const view = new BandsView(bandsOf(30, 30, () => undefined, 'swarm.toml'));
    const swarm = dayNumber('2013-06-01');
    const most = (day: number) => view.at('bees', 95, day) ?? Number.NaN;
    // Three quarters of them leave: the line does not begin to fall before, nor end after.
    expect(most(swarm)).toBeLessThan(0.45 * most(swarm - 1));
    expect(most(swarm - 1)).toBeGreaterThan(0.95 * most(swarm - 2));
  });

  it('refuse shares that are no lives, and too many members', () => {
    const plan = text(scenario('wet-spring.toml'));
    expect(thrown(() => explorer().bands(plan, 5, Float64Array.of(1, 2, 3)))).toMatchObject({ place: 'members', message: expect.stringContaining('got 3 numbers') });
    expect(thrown(() => explorer().share(plan, 5, 0, 1_000_000))).toMatchObject({ place: 'members' });
  });
});

describe('the range beside the number of the plan', () => {
  it('stands bare only where the number lies in it', () => {
    expect(rangeBeside(9800, 7900, 11_600, true)).toBe(' (7,900 to 11,600)');
    // As they are written, both are the same.
    expect(rangeBeside(11_630, 7900, 11_620, true)).toBe(' (7,900 to 11,600)');
  });

  it('says whose it is where the number lies outside', () => {
    expect(rangeBeside(11_900, 0, 9000, true)).toBe(' (more than most colonies like this one, with the mites that such colonies have: 0 to 9,000)');
    expect(rangeBeside(4000, 5000, 9000, false)).toMatch(/^ \(fewer than most colonies like this one, which differ in .+: 5,000 to 9,000\)$/);
    expect(rangeBeside(11_900, 0, 0, true)).toBe(' (nearly all colonies like this one, with the mites that such colonies have, are lost by now)');
  });
});

describe('the range of the colonies that fit what was found', () => {
  it('says what it is, and that a number outside of it is the plan’s', () => {
    expect(rangeFitting(25_500, 9200, 15_800)).toBe(' (in the plan; 9 in 10 colonies that fit what was found: 9,200 to 15,800)');
    expect(rangeFitting(12_000, 9200, 15_800)).toBe(' (9 in 10 colonies that fit what was found: 9,200 to 15,800)');
    expect(rangeFitting(25_500, 0, 0)).toBe(' (in the plan; nearly all colonies that fit what was found are lost by now)');
  });
});

describe('the bands behind a season', () => {
  const view = (from: string, days: number, low: number) => {
    const dates = [from, isoDate(dayNumber(from) + days - 1)];
    const values = ['bees', 'brood_frames'].flatMap(() => [1, 2, 3, 4, 5].flatMap((line) => [low * line, low * line]));
    return new BandsView({ dates, measures: ['bees', 'brood_frames'], values: Float64Array.from(values) } as unknown as Bands);
  };
  const all = view('2012-05-01', 60, 100);
  const season = { first: all.first, last: all.last };

  it('are those of all colonies as long as no verdict stands, and none of other days', () => {
    const behind = bandsBehind(all, null, season, 1);
    expect(behind.fitting).toBeNull();
    expect(behind.bees?.most.low.length).toBe(60);
    expect(bandsBehind(all, null, { ...season, last: season.last + 1 }, 1)).toEqual({ bees: null, brood: null, fitting: null });
  });

  it('are from the last visit on those of the colonies that fit', () => {
    const fitting = view('2012-06-10', 20, 7);
    const behind = bandsBehind(all, fitting, season, 1000);
    const days = Array.from({ length: 60 }, (_, i) => all.first + i);
    const [{ most }, found] = [behind.bees ?? { most: null }, behind.fitting?.bees];
    if (!most || !found || !behind.brood || !behind.fitting?.brood) throw new Error('a band is missing');
    expect(daysOf(most, days).map(isoDate).at(-1)).toBe('2012-06-10');
    expect(daysOf(behind.brood, days).length).toBe(daysOf(most, days).length);
    expect(daysOf(found, days).map(isoDate)[0]).toBe('2012-06-10');
    expect([found.low[3], found.high[3]]).toEqual([7, 35]);
    expect(behind.fitting.brood.high[3]).toBe(35_000);
    // Without those of all colonies, which may be on their way, too.
    expect(bandsBehind(null, fitting, season, 1)).toMatchObject({ bees: null, fitting: { bees: found } });
  });
});

/** A worker that answers what the pool asks, after a turn of the event loop. */
class Stub {
  asked: { kind: string; from?: number }[] = [];
  #listener: (event: { data: unknown }) => void = () => {};
  addEventListener(type: string, listener: (event: { data: unknown }) => void): void {
    if (type === 'message') this.#listener = listener;
  }
  postMessage(question: { id: number; kind: string; from?: number; shares?: Float64Array }): void {
    this.asked.push(question);
    const answer =
      question.kind === 'share'
        ? { numbers: Float64Array.of(question.from ?? 0) }
        : { bands: { members: MEMBERS, dates: [], measures: [], values: question.shares } };
    setTimeout(() => this.#listener({ data: { id: question.id, kind: question.kind, ...answer } }));
  }
}

describe('the pool', () => {
  it('puts shares together in the order of the members, whoever lived them', async () => {
    const workers: Stub[] = [];
    const crowd = new Crowd(
      () => {
        workers.push(new Stub());
        return workers.at(-1) as unknown as Worker;
      },
      () => {},
    );
    await crowd.follow(scenario('wet-spring.toml'));
    const values = [...(crowd.bands?.bands.values ?? [])];
    expect(values.length).toBe(MEMBERS / 25);
    expect(values).toEqual(values.toSorted((a, b) => a - b));
    expect(workers.flatMap(({ asked }) => asked).filter(({ kind }) => kind === 'share').length).toBe(values.length);
  });
});

describe('visits', () => {
  const [book] = openVisits(visitsFile('alder-row-3.toml'), 'alder-row-3.toml') as [VisitBook];

  it('are read, written and read again', () => {
    expect(book.visit?.length).toBe(6);
    const again = openVisits(new TextEncoder().encode(saveVisits(text(book))), 'again.toml');
    expect(again).toEqual([book]);
  });

  it('get a verdict that tells its progress', () => {
    const told: number[] = [];
    const verdict = explorer().verdict(text(scenario('wet-spring.toml')), text(book), undefined, 300, (lived: number) => told.push(lived));
    expect(verdict.visits).toBe(6);
    expect(['behind', 'far_behind']).toContain(verdict.standing.word);
    expect(verdict.causes[0]?.cause).toBe('queen');
    expect(verdict.forecast.dates.length).toBeGreaterThan(4);
    expect(told.length).toBeGreaterThan(10);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
  });

  it('say what cannot wait, in the language of the page', () => {
    const cells = { visit: [{ date: '2012-07-10', frames_of_bees: [7], eggs_seen: false, capped_cells: 10 }] };
    const made = explorer();
    made.speak('de');
    const verdict = made.verdict(text(scenario('wet-spring.toml')), text(cells), undefined, 100, () => {});
    expect(verdict.alarms).toMatchObject([{ date: '2012-07-10', alarm: 'queen_cells', text: expect.stringContaining('10 verdeckelte Weiselzellen') }]);
    expect(verdict.cells_unknown).toContain('wissen nichts von den Weiselzellen');
  });

  it('that cannot be are set aside with the reason, and the rest is used', () => {
    const odd = { ...book, visit: [...(book.visit ?? []), { date: '2031-05-01', frames_of_bees: [4] }] };
    const verdict = explorer().verdict(text(scenario('wet-spring.toml')), text(odd), undefined, 100, () => {});
    expect([verdict.visits, verdict.aside.length]).toEqual([6, 1]);
    expect(verdict.aside[0]?.reason).toContain('season');
  });

  it('with a fault point at it', () => {
    const fault = thrown(() => openVisits(new TextEncoder().encode('[[visit]]\ndate = 2012-05-07\nframes_of_bee = [4]\n'), 'a.toml'));
    expect(fault).toMatchObject({ place: expect.stringContaining('line 3'), excerpt: expect.stringContaining('frames_of_bee') });
  });
});
