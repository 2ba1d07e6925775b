import { differences } from '../src/against';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../src/calendar';
import { edited, twinOf, withStartDate } from '../src/plan';
import { clearEnd } from '../src/scales';
import { SeasonView } from '../src/season';
import type { Session } from '../src/session.svelte';
import { stripLayout } from '../src/strip/layout';
import {
  agreed,
  type Difference,
  differenceBetween,
  differenceOn,
  meanDifference,
  type MeasureName,
  MEASURES,
  sayDifference,
  sayRange,
  triedDifference,
} from '../src/trials/difference';
import { catalogue } from '../src/wasm/sim_wasm.js';
import { explorer, run, scenario } from './door';

const model = explorer();
const fed = scenario('wet-spring.toml');
const dry = twinOf(fed, 'rain', null)!;
const season = (name: string, of: typeof fed) => new SeasonView(run(model, name, of), catalogue());
const [plan, twin] = [season('plan', fed), season('twin', dry)];
const trial = model.compare(JSON.stringify(fed), JSON.stringify(dry), 40);
const names = Object.keys(MEASURES) as MeasureName[];
const june = dayNumber('2012-06-11');

describe('the difference of plan and twin', () => {
  it('is told for every measure of the model, of columns that a season has', () => {
    expect(names).toEqual(trial.measures.map(({ name }) => name));
    for (const name of names) expect(Number.isFinite(differenceOn(meanDifference(plan, twin, name), june))).toBe(true);
  });

  it('is what the mean seasons differ by, and nothing of a season from itself', () => {
    const mites = meanDifference(plan, twin, 'mites');
    const sum = (view: SeasonView) => view.at('mites_on_bees', june) + view.at('mites_in_cells', june);
    expect(differenceOn(mites, june)).toBeCloseTo(sum(plan) - sum(twin), 9);
    expect(differenceOn(meanDifference(plan, twin, 'bees'), june)).toBeLessThan(-2000);
    expect(Math.max(...meanDifference(plan, plan, 'bees').line.map(Math.abs))).toBe(0);
  });

  it('ends with the twin where that is the shorter, and keeps to dates where that starts later', () => {
    const short = season('short', edited(dry, (draft) => void Object.assign(draft, { until: '2012-06-20', expect: [] })));
    const bees = meanDifference(plan, short, 'bees');
    expect(differenceOn(bees, june)).toBeCloseTo(differenceOn(meanDifference(plan, twin, 'bees'), june), 0);
    expect(differenceOn(bees, dayNumber('2012-06-21'))).toBeNaN();
    expect(sayDifference(bees, dayNumber('2012-06-21'), 'metric')).toBe('–');
    const moved = meanDifference(plan, season('late', withStartDate(fed, '2012-05-03')), 'bees');
    expect(differenceOn(moved, plan.first + 2)).toBeNaN();
    expect(Number.isFinite(differenceOn(moved, plan.first + 3))).toBe(true);
  });

  it('is of the seasons tried where these two were, otherwise of the mean seasons', () => {
    const at = (of: unknown, measure: MeasureName = 'bees') =>
      differenceBetween({ plan, twin, shown: fed, shownTwin: dry, trials: { trial, of, measure } } as unknown as Session);
    expect(at({ plan: fed, twin: dry })?.tried?.members).toBe(40);
    expect(at({ plan: fed, twin: dry }, 'honey_kg')?.measure).toBe('honey_kg');
    // A plan that has changed since, or another twin.
    expect(at({ plan: dry, twin: dry })?.tried).toBeNull();
    expect(at({ plan: fed, twin: fed })?.tried).toBeNull();
    expect(at(null)?.line).toEqual(meanDifference(plan, twin, 'bees').line);
    expect(differenceBetween({ plan, twin: null, trials: { measure: 'bees' } } as unknown as Session)).toBeNull();
  });
});

describe('seasons agree', () => {
  it('from the day of the first rain, and on no day before: there is nothing to agree on', () => {
    const bees = triedDifference(trial, 'bees')!;
    const stretches = agreed(bees);
    expect(stretches[0]?.from).toBe(dayNumber('2012-05-07'));
    expect(stretches.map(({ better }) => better)).toContain(false);
    for (const { from, to, better } of stretches) {
      for (let day = from; day <= to; day += 1) expect(differenceOn(bees, day) > 0).toBe(better);
    }
  });

  it('for the plan where it has less of what is better fewer', () => {
    const mites = (low: number, high: number, better: number): Difference => ({
      measure: 'mites',
      first: 100,
      line: Float64Array.of((low + high) / 2),
      tried: { low: Float64Array.of(low), high: Float64Array.of(high), better: Float64Array.of(better), moreIsBetter: false, members: 200 },
    });
    expect(agreed(mites(-9, -2, 0.99))).toEqual([{ from: 100, to: 100, better: true }]);
    expect(agreed(mites(2, 9, 0.01))).toEqual([{ from: 100, to: 100, better: false }]);
    expect(agreed(mites(-2, 9, 0.06))).toEqual([]);
    expect(agreed(mites(0, 0, 0))).toEqual([]);
  });
});

describe('in words', () => {
  const one = (measure: MeasureName, value: number, low = value, high = value): Difference => ({
    measure,
    first: 0,
    line: Float64Array.of(value),
    tried: { low: Float64Array.of(low), high: Float64Array.of(high), better: Float64Array.of(1), moreIsBetter: true, members: 9 },
  });
  it('has a sign, a unit, and no more figures than somebody counts', () => {
    expect(sayDifference(one('bees', 8049), 0, 'metric')).toBe('+8,000 bees');
    expect(sayDifference(one('bees', -452), 0, 'metric')).toBe('−450 bees');
    expect(sayDifference(one('bees', -4), 0, 'metric')).toBe('no difference');
    expect(sayDifference(one('drawn_frames', -2.46), 0, 'metric')).toBe('−2.5 frames drawn');
    expect(sayDifference(one('honey_kg', 1), 0, 'metric')).toBe('+1.0 kg of honey');
    expect(sayDifference(one('honey_kg', 1), 0, 'us')).toBe('+2.2 lb of honey');
  });
  it('has the range of nine seasons in ten', () => {
    expect(sayRange(one('bees', 100, -60, 4321), 0, 'metric')).toBe('−60 to +4,300');
    expect(sayRange(one('honey_kg', 1, 0, 2), 0, 'us')).toBe('0 to +4.4');
    expect(sayRange(one('bees', 0, 0, 0), 0, 'metric')).toBe('');
    expect(sayRange(meanDifference(plan, twin, 'bees'), june, 'metric')).toBe('');
  });
});

describe('on the strip', () => {
  const lanes = { bloom: 2, brake: 0, moves: 1, seen: 1 };
  it('it has a row while there is a twin, and takes no room while there is none', () => {
    for (const width of [360, 1200]) {
      const [without, row] = [stripLayout(width, lanes, ['difference']), stripLayout(width, lanes)];
      expect(without.rows.difference.height).toBe(0);
      expect(row.rows.difference.top).toBeGreaterThan(row.rows.brood.top + row.rows.brood.height);
      expect(row.height - without.height).toBeGreaterThanOrEqual(row.rows.difference.height);
    }
  });

  it('figures stand at the end that is clear, at the right one where neither is', () => {
    const figure = { top: 10, bottom: 20, width: 30 };
    const drawn = (left: number, right: number) => [
      { x: 5, high: left, low: left },
      { x: 95, high: right, low: right },
    ];
    expect(clearEnd(drawn(15, 50), figure, 0, 100)).toBe('end');
    expect(clearEnd(drawn(50, 15), figure, 0, 100)).toBe('start');
    expect(clearEnd(drawn(15, 15), figure, 0, 100)).toBe('end');
    expect(clearEnd([{ x: 95, high: 5, low: 60 }], figure, 0, 100)).toBe('start');
  });
});

describe('the twin of a day in words', () => {
  const alike = { adult_bees: 20_000, frames_of_brood: 5, drawn_frames: 10, honey_kg: 12, unripe_kg: 0.3, mites_per_100_bees: 1 };
  const view = (of: Record<string, number>) => ({ at: (column: string) => of[column] ?? 0 }) as unknown as SeasonView;
  const told = (twin: Partial<typeof alike>, units: 'metric' | 'us' = 'metric') => differences(view(alike), view({ ...alike, ...twin }), 0, units);

  it('is the same only where nothing differs that can be seen', () => {
    expect(told({})).toEqual([]);
    expect(told({ honey_kg: 47.5 })).toEqual(['35.5 kg more in store']);
    expect(told({ honey_kg: 47.5 }, 'us')).toEqual(['78.3 lb more in store']);
    expect(told({ frames_of_brood: 3, mites_per_100_bees: 0.4 })).toEqual(['2 fewer frames of brood', '0.6 fewer mites on 100 bees']);
    expect(told({ adult_bees: 22_000, drawn_frames: 9.5 })).toEqual(['about 2,000 more bees', '½ fewer frame drawn']);
  });
});
