import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Question } from '../src/protocol';
import { type Asked, Finder, PATIENCE } from '../src/search/finder.svelte';
import type { VisitBook } from '../src/visits';
import { openVisits } from '../src/wasm/sim_wasm.js';
import { explorer, scenario, scenarioFile } from './door';

const plan = scenario('wet-spring.toml');
const WISHES = { goals: ['bees'], what: ['box'], visitsPerWeek: 1, noChemicals: true, jars: 0 };
const ASKED: Asked = { scenario: plan, book: null, from: '2012-05-10', wishes: WISHES };

/** A worker with the real model behind it; `pieces` are told before they are answered. */
class Modelled {
  static made: Modelled[] = [];
  asked: Question<'search'>[] = [];
  ended = false;
  silent = false;
  onPiece: () => void = () => {};
  #explorer = explorer();
  #listener: (event: { data: unknown }) => void = () => {};

  constructor() {
    Modelled.made.push(this);
  }
  addEventListener(type: string, listener: (event: { data: unknown }) => void): void {
    if (type === 'message') this.#listener = listener;
  }
  terminate(): void {
    this.ended = true;
  }
  postMessage(question: Question): void {
    if (question.kind !== 'search') return;
    this.asked.push(question);
    if (this.silent) return;
    setTimeout(() => {
      const { id, scenario: asked, book, wishes, on, today, members } = question;
      // Twenty plans tried, however long that takes.
      let left = 20;
      const more = () => (left -= 1) > 0;
      const soFar = this.#explorer.search(JSON.stringify(asked), JSON.stringify(book), JSON.stringify(wishes), on ?? undefined, today, members, more);
      this.onPiece();
      this.#listener({ data: { id, kind: 'search', soFar } });
    }, 0);
  }
}

function finder(): Finder {
  return new Finder(
    () => new Modelled() as unknown as Worker,
    (message) => {
      throw new Error(message);
    },
  );
}

/** Stops after so many pieces. */
async function stoppedAfter(pieces: number, asked = ASKED): Promise<{ one: Finder; worker: Modelled }> {
  const one = finder();
  const searched = one.search(asked);
  const worker = Modelled.made.at(-1)!;
  worker.onPiece = () => {
    if (worker.asked.length === pieces) one.stop();
  };
  await searched;
  worker.onPiece = () => {};
  return { one, worker };
}

describe('a search on the page', () => {
  afterEach(() => vi.useRealTimers());

  it('is stopped between pieces, goes on, and ends as one that was never stopped', async () => {
    const whole = finder();
    await whole.search(ASKED);
    expect(whole.found?.finished).toBe(true);
    expect(whole.goesOn(ASKED)).toBe(false);

    const { one, worker } = await stoppedAfter(2);
    expect(worker.asked).toHaveLength(2);
    expect(one).toMatchObject({ busy: false, stopping: false, problem: null });
    expect(one.found?.finished ?? false).toBe(false);
    expect(one.goesOn(ASKED)).toBe(true);
    const { lived } = one;
    await one.search(ASKED);
    expect(one.found).toEqual(whole.found);
    expect(one.lived).toBe(whole.lived);
    expect(one.lived).toBeGreaterThan(lived);
    expect(worker.ended).toBe(false);
  });

  it('is stopped and goes on while colonies that fit visits are found', async () => {
    const [{ visit, ...hive }] = openVisits(scenarioFile('visits/alder-row-3.toml'), 'the demo hive') as [VisitBook];
    const visited: Asked = { ...ASKED, book: { ...hive, visit: visit!.slice(0, 2) } };
    const { one, worker } = await stoppedAfter(3, visited);
    expect(worker.asked).toHaveLength(3);
    expect(one).toMatchObject({ busy: false, doing: 'finding', plans: 0, found: null });
    expect(one.goesOn(visited)).toBe(true);
    const { lived } = one;
    await one.search(visited);
    const whole = finder();
    await whole.search(visited);
    expect(one).toMatchObject({ doing: 'judging', lived: whole.lived, found: whole.found });
    expect(one.lived).toBeGreaterThan(lived);
    expect(worker.ended).toBe(false);
  });

  it('begins anew with other wishes, another day or another plan, and puts an end to the one before', async () => {
    const others: Asked[] = [
      { ...ASKED, wishes: { ...WISHES, visitsPerWeek: 2 } },
      { ...ASKED, from: '2012-05-17' },
      { ...ASKED, scenario: { ...plan } },
    ];
    const { one } = await stoppedAfter(2);
    for (const other of others) expect(one.goesOn(other)).toBe(false);

    const before = one.search(ASKED);
    await one.search(others[0]!);
    await before;
    expect(one.isFor(others[0]!)).toBe(true);
    const fresh = finder();
    await fresh.search(others[0]!);
    expect(one.found).toEqual(fresh.found);
    expect(one.lived).toBe(fresh.lived);
  });

  it('ends a worker that does not answer, and only that', async () => {
    const { one, worker } = await stoppedAfter(2);
    vi.useFakeTimers();
    worker.silent = true;
    void one.search(ASKED);
    one.stop();
    // Taken back and pressed again: patience begins anew.
    vi.advanceTimersByTime(PATIENCE / 2);
    void one.search(ASKED);
    one.stop();
    vi.advanceTimersByTime(PATIENCE - 1);
    expect([one.busy, one.stopping, worker.ended]).toEqual([true, true, false]);
    vi.advanceTimersByTime(1);
    expect([one.busy, one.stopping, worker.ended]).toEqual([false, false, true]);
    vi.useRealTimers();
    await one.search(ASKED);
    expect(one.found?.finished).toBe(true);
  });
});
