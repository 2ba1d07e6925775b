import { describe, expect, it } from 'vitest';
import { dayNumber, plusDays } from '../src/calendar';
import { comparable, edited, leavingStart, type LeftStarts, pounds, type StartKind, startKind, startLine, twinName, twinOf, twinWithout, shiftTo, usualFeed, usualRain, weatherYear, withStartDate, withStartKind } from '../src/plan';
import type { HiveBox } from '../src/scenario';
import { Ranges } from '../src/ranges';
import { schemaText } from '../scripts/types.mjs';
import { explorer, run, scenario } from './door';
import { catalogue } from '../src/wasm/sim_wasm.js';

const plan = () => scenario('wet-spring.toml');

describe('editing a plan', () => {
  it('compares with the same move after another one has gone', () => {
    expect(twinWithout('without 2', 1)).toBe('without 1');
    expect(twinWithout('without 2', 2)).toBe('none');
    expect(twinWithout('without 2', 3)).toBe('without 2');
    expect(twinWithout('feed', 0)).toBe('feed');
  });

  it('leaves the one before as it was', () => {
    const before = plan();
    const after = edited(before, (draft) => {
      draft.name = 'other';
      draft.hive.box = [];
    });
    expect(after.name).toBe('other');
    expect(before).toEqual(plan());
  });

  it('moves the whole season with its start', () => {
    const moved = withStartDate(plan(), '2012-05-10');
    expect(moved.start.date).toBe('2012-05-10');
    expect(moved.feed?.[0]?.from).toBe('2012-05-10');
    expect(dayNumber(moved.until) - dayNumber(plan().until)).toBe(10);
    const [spell] = plan().weather.rain ?? [];
    expect(spell).toBeDefined();
    expect(moved.weather.rain).toEqual([{ ...spell, from: plusDays(spell?.from ?? '', 10), to: plusDays(spell?.to ?? '', 10) }]);
    expect({ ...moved.weather, rain: [] }).toEqual({ ...plan().weather, rain: [] });
    expect(withStartDate(plan(), '')).toEqual(plan());
  });

  it('keeps the year of the weather that was chosen, or the nearest that the record holds whole', () => {
    const { records } = catalogue();
    const [record] = records;
    if (!record) throw new Error('no record');
    const year = record.last_year;
    const chosen = edited(plan(), (draft) => {
      draft.weather.record = record.name;
      draft.weather.shift_years = shiftTo(year, draft.start.date, record);
    });
    expect(weatherYear(chosen)).toBe(year);
    for (const start of [`${record.first_year}-05-03`, `${year}-05-03`, `${year + 9}-05-03`])
      expect(weatherYear(withStartDate(chosen, start, records))).toBe(year);
    const beyond = edited(chosen, (draft) => (draft.weather.shift_years = -200));
    expect(weatherYear(withStartDate(beyond, '2012-05-10', records))).toBe(year);
  });

  it('leaves days of weather that were read on their dates', () => {
    const typed = [{ date: '2012-05-02', high_c: 20, low_c: 10 }];
    const written = edited(plan(), (draft) => void (draft.weather.typed = typed));
    expect(withStartDate(written, '2012-06-10').weather.typed).toEqual(typed);
  });

  it.each(['package', 'swarm', 'nuc', 'established'] as const)('makes a season that starts with a %s', (kind) => {
    const changed = withStartKind(plan(), kind);
    expect(startKind(changed)).toBe(kind);
    expect(run(explorer(), 'plan', changed).days).toBeGreaterThan(100);
  });

  it('comes back to a way to start with its bees and its comb as they were', () => {
    let now = plan();
    now.start.package = { pounds: 3.4 };
    const comb = now.hive.box[0]?.comb;
    expect(comb).toBe('foundation');
    let left: LeftStarts | undefined;
    const startWith = (kind: StartKind) => {
      left = leavingStart(now, left);
      now = withStartKind(now, kind, left);
    };
    startWith('nuc');
    expect(now.hive.box[0]?.comb).toBe('drawn');
    (now.hive.box[0] as HiveBox).contents = Array.from({ length: 10 }, () => 'drawn');
    startWith('swarm');
    expect(now.hive.box[0]).toEqual(plan().hive.box[0]);
    startWith('established');
    expect(now.hive.box[0]?.contents).toHaveLength(10);
    startWith('package');
    expect(now).toEqual({ ...plan(), start: { ...plan().start, package: { pounds: 3.4 } } });
  });

  it('weighs bees in pounds', () => {
    expect(pounds({ pounds: 3 })).toBe(3);
    expect(pounds({ kilograms: 1.360_777_11 })).toBeCloseTo(3, 6);
    expect(pounds({})).toBeNull();
  });

  it('says the start in a line', () => {
    expect(startLine(plan(), 'us')).toBe('package of 3 lb on foundation, 30 April 2012');
    expect(startLine(plan(), 'metric')).toBe('package of 1.4 kg on foundation, 30 April 2012');
  });

  it.each([
    [{ kilograms: 1.25 }, 'package of 1.25 kg', 'package of 2.8 lb'],
    [{ pounds: 2.25 }, 'package of 1 kg', 'package of 2.25 lb'],
    [{ bees: 9500 }, 'package of 9,500 bees', 'package of 9,500 bees'],
  ])('says %o as it was weighed, or in the units of the page', (bees, metric, us) => {
    const weighed = edited(plan(), (draft) => {
      draft.start.package = bees;
    });
    expect(startLine(weighed, 'metric')).toContain(`${metric} on`);
    expect(startLine(weighed, 'us')).toContain(`${us} on`);
  });
});

describe('the twin', () => {
  it('differs in the feed and nothing else', () => {
    const twin = twinOf(plan(), 'feed', null);
    expect(twin?.feed).toEqual([]);
    expect({ ...twin, feed: plan().feed }).toEqual(plan());
    expect(twinName(plan(), 'feed')).toBe('without feed');
  });

  it('is fed where the plan is not', () => {
    const unfed = { ...plan(), feed: [] };
    expect(twinOf(unfed, 'feed', null)?.feed).toEqual([usualFeed(unfed)]);
    expect(twinName(unfed, 'feed')).toBe('with feed');
  });

  it('has no rain spell, or one where the plan has none', () => {
    expect(twinOf(plan(), 'rain', null)?.weather.rain).toEqual([]);
    const dry = edited(plan(), (draft) => {
      draft.weather.rain = [];
    });
    expect(twinOf(dry, 'rain', null)?.weather.rain).toEqual([usualRain(dry)]);
  });

  it('is the plan that was kept, or none', () => {
    const kept = { ...plan(), name: 'kept' };
    expect(twinOf(plan(), 'kept', kept)).toBe(kept);
    expect(twinOf(plan(), 'none', kept)).toBeNull();
  });

  it('may be that of another hive, where the two have days in common and its weather is everybody’s', () => {
    const other = { id: 'b', name: 'Hive 9', scenario: edited(plan(), (draft) => void (draft.feed = [])), recordName: null };
    const later = { ...other, id: 'c', scenario: withStartDate(plan(), '2019-04-30') };
    const own = { ...other, id: 'd', recordName: 'garden.csv', scenario: edited(plan(), (draft) => void (draft.weather.record = 'garden.csv')) };
    const hives = [other, later, own];
    expect(comparable(plan(), hives).map(({ id }) => id)).toEqual(['b']);
    expect(twinOf(plan(), 'hive b', null, hives)).toBe(other.scenario);
    for (const gone of ['hive c', 'hive d', 'hive e'] as const) expect(twinOf(plan(), gone, null, hives)).toBeNull();
    expect(twinName(plan(), 'hive b', hives)).toBe('in “Hive 9”');
    expect(twinName(plan(), 'hive e', hives)).toBe('');
  });
});

describe('limits from the schema', () => {
  const ranges = new Ranges(schemaText());
  it.each([
    ['start.package.pounds', 0.5, 10],
    ['feed.litres', 0.1, 50],
    ['feed.every_days', 1, 60],
    ['weather.rain.mm_a_day', 0, 200],
    ['start.nuc.frames_of_bees', 0.5, 40],
  ])('%s goes from %d to %d', (place, min, max) => {
    expect(ranges.of(place)).toEqual({ min, max });
  });
});
