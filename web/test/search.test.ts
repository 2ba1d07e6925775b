import { describe, expect, it } from 'vitest';
import { againstNext, besides, costs, gained, kinds } from '../src/search/say';
import type { FoundPlans } from '../src/types';
import { explorer, scenario, thrown } from './door';

const plan = JSON.stringify(scenario('wet-spring.toml'));
const WISHES = { goals: ['few-mites'], what: ['drone-frames'], visitsPerWeek: 1, noChemicals: true, jars: 0 };

function search(wishes: object, lives = 0): { found: FoundPlans; told: number[] } {
  const told: number[] = [];
  const found = explorer().search(plan, '{"visit":[]}', JSON.stringify(wishes), '2012-06-11', '2026-11-25', 60, lives, (lived: number) => told.push(lived));
  return { found, told };
}

describe('the search', () => {
  const { found, told } = search(WISHES);

  it('gives the best few of many plans, with dates, gains and costs', () => {
    expect(found.finished).toBe(true);
    expect(found.tried).toBeGreaterThan(100);
    expect(found.best).toHaveLength(3);
    for (const [place, one] of found.best.entries()) {
      expect(one.calendar.map(({ date }) => date)).toEqual(one.calendar.map(({ date }) => date).toSorted());
      expect(one.moves.length).toBeGreaterThan(1);
      expect(kinds(one)).toMatch(/^A (pair of )?drone frames?$/);
      expect(gained(one.gains[0]!, 'metric')).toMatch(/^Mites on 100 bees: .* in the middle; better in \d+ of \d+ colonies, worse in \d+; in the mean it is (better|worse) \(/);
      expect(costs(one, 'us')).toMatch(/^Costs \d+ visits; [\d,]+ drones, and [\d.]+ lb of honey/);
      expect(besides(one, 'metric')).toMatch(/^(Besides, on the last day: .*)?$/);
      if (place === 2) expect(againstNext(one, place)).toBe('');
    }
    expect(found.best[0]!.gains[0]!.sure).toBeGreaterThan(0.9);
    expect(found.ics.us).toContain('BEGIN:VEVENT');
  });

  it('tells how many lives were lived, and breaks off after as many as it may', () => {
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    const few = search(WISHES, Math.round(0.8 * (told.at(-1) ?? 0)));
    expect(few.found.finished).toBe(false);
    expect(few.told.at(-1)).toBeLessThan(told.at(-1) ?? 0);
    expect(thrown(() => search(WISHES, 10))).toMatchObject({ place: 'search' });
  });

  it('says which wish cannot be', () => {
    expect(thrown(() => search({ ...WISHES, goals: ['gold'] }))).toMatchObject({ place: 'goals', message: expect.stringContaining('few-mites') });
    expect(thrown(() => search({ ...WISHES, jars: null }))).toMatchObject({ place: 'wishes' });
  });
});
