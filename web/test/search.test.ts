import { describe, expect, it } from 'vitest';
import { againstNext, amount, besides, costs, gained, kinds } from '../src/search/say';
import type { FoundPlans } from '../src/types';
import type { VisitBook } from '../src/visits';
import { type Explorer, openVisits } from '../src/wasm/sim_wasm.js';
import { explorer, scenario, scenarioFile, thrown } from './door';

const plan = JSON.stringify(scenario('wet-spring.toml'));
const WISHES = { goals: ['few-mites'], what: ['drone-frames'], visitsPerWeek: 1, noChemicals: true, jars: 0 };

const TO_THE_END = Number.POSITIVE_INFINITY;
const NO_VISITS = '{"visit":[]}';
const [{ visit, ...hive }] = openVisits(scenarioFile('visits/alder-row-3.toml'), 'the demo hive') as [VisitBook];
const TWO_VISITS = JSON.stringify({ ...hive, visit: visit!.slice(0, 2) });

/** One piece of a search: so many times a plan is tried, or a hundred colonies go on. */
function piece(made: Explorer, work: number, { wishes = WISHES as object, book = NO_VISITS, scenario: text = plan, on = '2012-06-11', members = 60 } = {}) {
  let left = work;
  return made.search(text, book, JSON.stringify(wishes), on, '2026-11-25', members, () => (left -= 1) > 0);
}

function search(wishes: object = WISHES): FoundPlans {
  const { found } = piece(explorer(), TO_THE_END, { wishes });
  if (!found) throw new Error('nothing was found');
  return found.en;
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
      expect(gained(one.gains[0]!, 'metric')).toMatch(/^Mites on 100 bees: .* in the middle; better in \d+ of \d+ colonies, worse in \d+; (in the mean it is (better|worse) \(|no difference in the mean)/);
      expect(costs(one, 'us')).toMatch(/^Costs \d+ visits; [\d,]+ drones, and [\d.]+ lb of honey/);
      expect(besides(one, 'metric')).toMatch(/^(Besides, on the last day: .*)?$/);
      if (place === 2) expect(againstNext(one, place)).toBe('');
      else expect(one.against_next.map(({ goal }) => goal)).toEqual(['few_mites']);
    }
    expect(found.best[0]!.gains[0]!.sure).toBeGreaterThan(0.9);
    expect(found.ics.us).toContain('BEGIN:VEVENT');
  });

  it('tells what it found in every language, whichever was asked in', () => {
    const { found } = piece(explorer(), TO_THE_END);
    expect(found?.en.best.map(({ moves }) => moves)).toEqual(found?.de.best.map(({ moves }) => moves));
    expect(found?.en.best[0]?.calendar[0]?.text).toMatch(/drone frame/);
    expect(found?.de.best[0]?.calendar[0]?.text).toMatch(/Drohnenrahmen/);
    expect(found?.de.cautions).not.toEqual(found?.en.cautions);
    expect(found?.de.ics.metric).toMatch(/SUMMARY:.*Drohnenrahmen/);
  });

  it('goes on in pieces of any size to the same end, and has the best so far after each stage', () => {
    for (const work of [7, 50, 300]) {
      const made = explorer();
      let now = piece(made, work);
      expect(now).toMatchObject({ stage: 1, doing: 'racing', found: null });
      for (let before = now; !now.found?.en.finished; before = now) {
        now = piece(made, work);
        expect(now.lived).toBeGreaterThanOrEqual(before.lived);
        expect(now.stage).toBeGreaterThanOrEqual(before.stage);
        if (now.stage > 1) expect(now.found?.en.best.length).toBeGreaterThan(0);
      }
      expect(now.found?.en).toEqual(found);
      // What is over is told again, and nothing is lived.
      expect(piece(made, work)).toEqual(now);
    }
  });

  it('finds the colonies that fit visits first, and that in pieces too', () => {
    const asked = { book: TWO_VISITS, wishes: { ...WISHES, what: ['box'] } };
    const whole = piece(explorer(), TO_THE_END, asked);
    expect(whole.found?.en.finished).toBe(true);
    const made = explorer();
    let now = piece(made, 2, asked);
    expect(now).toMatchObject({ doing: 'finding', lived: 200, plans: 0, found: null });
    let pieces = 1;
    for (; now.doing === 'finding'; pieces += 1) {
      const { lived } = now;
      now = piece(made, 2, asked);
      expect(now.lived).toBeGreaterThan(lived);
    }
    // 2,000 colonies are made, live until each visit, are offered other lives there, and go on to the day of the search.
    expect(pieces).toBeGreaterThan((2000 * 6) / 200);
    while (!now.found?.en.finished) now = piece(made, 20, asked);
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
    const first = piece(made, 60);
    expect(piece(made, 60).lived).toBeGreaterThan(first.lived);
    expect(piece(made, 60, other)).toEqual(piece(explorer(), 60, other));
    expect(piece(made, 60)).toEqual(first);
  });

  it('begins anew with another weather file', () => {
    const made = explorer();
    const first = piece(made, 60);
    made.keepFile('another.csv', new Uint8Array());
    expect(piece(made, 60)).toEqual(first);
  });

  it('says which wish cannot be', () => {
    expect(thrown(() => search({ ...WISHES, goals: ['gold'] }))).toMatchObject({ place: 'goals', message: expect.stringContaining('few-mites') });
    expect(thrown(() => search({ ...WISHES, jars: null }))).toMatchObject({ place: 'wishes' });
  });
});

describe('against the next plan', () => {
  it('every goal that differs is told by its name, in the order of the wishes', () => {
    const { found } = piece(explorer(), TO_THE_END, { wishes: { ...WISHES, goals: ['no-swarm', 'few-mites', 'bees'] } });
    const [first] = found!.en.best;
    expect(first!.against_next.map(({ goal }) => goal)).toEqual(['no_swarm', 'few_mites', 'bees']);
    const told = againstNext(first!, 0).match(/Against number 2 \(.*?\): (better in \d+ of \d+|in no)/g) ?? [];
    expect(told.map((words) => /\((.*)\)/.exec(words)![1])).toEqual(first!.against_next.flatMap(({ goal, better: { ahead, behind } }) => (ahead + behind > 0 ? [goal.replace('_', ' ')] : [])));
    expect(told.length).toBeGreaterThan(1);
  });
});

describe('amounts in words', () => {
  it('say of a lost colony that it is lost, and give it no mites', () => {
    const spread = { mean: 20, standard_error: 1, q05: 2, q25: 4, median: 7.9, q75: 30, q95: 100 };
    expect(amount('few_mites', spread, 'metric')).toBe('mites on 100 bees: 2.0 or more, 7.9 in the middle; one colony in twenty or more is lost');
    expect(amount('few_mites', { ...spread, median: 100 }, 'metric')).toBe('mites on 100 bees: 2.0 or more; half of the colonies or more are lost');
    expect(amount('bees', { ...spread, q95: 100 }, 'metric')).not.toContain('lost');
  });

  it('call a difference one only where it is sure', () => {
    const spread = { mean: 2, standard_error: 1, q05: 1, q25: 2, median: 2, q75: 2, q95: 3 };
    const gain = { goal: 'few_mites' as const, with: spread, difference: spread, better: { ahead: 1, level: 198, behind: 1 }, probability: 0.5, probability_error: 0.1, sure: 0.5 };
    expect(gained(gain, 'metric')).toMatch(/worse in 1; no difference in the mean that could be seen\.$/);
    expect(gained({ ...gain, sure: 0.98 }, 'metric')).toMatch(/in the mean it is better \(98 % sure\)\.$/);
  });
});
