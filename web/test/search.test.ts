import { describe, expect, it } from 'vitest';
import { againstNext, amount, besides, costs, gained, kinds } from '../src/search/say';
import type { FoundPlans } from '../src/types';
import type { VisitBook } from '../src/visits';
import { type Explorer, openVisits } from '../src/wasm/sim_wasm.js';
import { explorer, scenario, scenarioFile, thrown } from './door';

const plan = JSON.stringify(scenario('wet-spring.toml'));
const WISHES = { goals: ['few-mites'], what: ['drone-frames'], visitsPerWeek: 1, noChemicals: true, jars: 0 };

const NO_VISITS = '{"visit":[]}';
const [{ visit, ...hive }] = openVisits(scenarioFile('visits/alder-row-3.toml'), 'the demo hive') as [VisitBook];
const TWO_VISITS = JSON.stringify({ ...hive, visit: visit!.slice(0, 2) });

/** One piece of a search: so many lives, 0 to the end. */
function piece(made: Explorer, lives: number, { wishes = WISHES as object, book = NO_VISITS, scenario: text = plan, on = '2012-06-11', members = 60 } = {}) {
  return made.search(text, book, JSON.stringify(wishes), on, '2026-11-25', members, lives);
}

function search(wishes: object = WISHES): FoundPlans {
  const { found } = piece(explorer(), 0, { wishes });
  if (!found) throw new Error('nothing was found');
  return found;
}

describe('the search', () => {
  const found = search();

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

  it('goes on in pieces of any size to the same end, and has the best so far after each stage', () => {
    for (const lives of [1, 150, 2000]) {
      const made = explorer();
      let now = piece(made, lives);
      expect(now).toMatchObject({ stage: 1, doing: 'racing', found: null });
      for (let before = now; !now.found?.finished; before = now) {
        now = piece(made, lives);
        expect(now.lived).toBeGreaterThan(before.lived);
        expect(now.stage).toBeGreaterThanOrEqual(before.stage);
        if (now.stage > 1) expect(now.found?.best.length).toBeGreaterThan(0);
      }
      expect(now.found).toEqual(found);
      // What is over is told again, and nothing is lived.
      expect(piece(made, lives)).toEqual(now);
    }
  });

  it('finds the colonies that fit visits first, and that in pieces too', () => {
    const asked = { book: TWO_VISITS, wishes: { ...WISHES, what: ['box'] } };
    const whole = piece(explorer(), 0, asked);
    expect(whole.found?.finished).toBe(true);
    const made = explorer();
    let now = piece(made, 150, asked);
    expect(now).toMatchObject({ doing: 'finding', lived: 200, plans: 0, found: null });
    let pieces = 1;
    for (; now.doing === 'finding'; pieces += 1) {
      const { lived } = now;
      now = piece(made, 150, asked);
      expect(now.lived).toBeGreaterThan(lived);
    }
    // 2,000 colonies are made, live until each visit, are offered other lives there, and go on to the day of the search.
    expect(pieces).toBeGreaterThan((2000 * 6) / 200);
    while (!now.found?.finished) now = piece(made, 150, asked);
    expect(now).toEqual(whole);
  });

  it.each([
    ['wish', { wishes: { ...WISHES, goals: ['honey'] } }],
    ['book of visits', { book: '{"hive":"another","visit":[]}' }],
    ['day', { on: '2012-06-18' }],
    ['number of colonies', { members: 50 }],
    ['plan', { scenario: JSON.stringify({ ...scenario('wet-spring.toml'), seed: 99 }) }],
  ])('begins anew with another %s', (_, other) => {
    const made = explorer();
    const first = piece(made, 500);
    expect(piece(made, 500).lived).toBeGreaterThan(first.lived);
    expect(piece(made, 500, other)).toEqual(piece(explorer(), 500, other));
    expect(piece(made, 500)).toEqual(first);
  });

  it('begins anew with another weather file', () => {
    const made = explorer();
    const first = piece(made, 500);
    made.keepFile('another.csv', new Uint8Array());
    expect(piece(made, 500)).toEqual(first);
  });

  it('says which wish cannot be', () => {
    expect(thrown(() => search({ ...WISHES, goals: ['gold'] }))).toMatchObject({ place: 'goals', message: expect.stringContaining('few-mites') });
    expect(thrown(() => search({ ...WISHES, jars: null }))).toMatchObject({ place: 'wishes' });
  });
});

describe('amounts in words', () => {
  it('say of a lost colony that it is lost, and give it no mites', () => {
    const spread = { mean: 20, standard_error: 1, q05: 2, q25: 4, median: 7.9, q75: 30, q95: 100 };
    expect(amount('few_mites', spread, 'metric')).toBe('mites on 100 bees: 2.0 to a lost colony, 7.9 in the middle');
    expect(amount('bees', { ...spread, q95: 100 }, 'metric')).not.toContain('lost');
  });
});
