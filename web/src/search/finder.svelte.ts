/** The search for better plans: a worker of its own looks for them, shows the best so far, and can be stopped at any time. */
import { isoDate } from '../calendar';
import { LongWorker, problemOf, ProblemError } from '../client';
import type { Wishes } from '../protocol';
import type { Scenario } from '../scenario';
import type { FoundPlans, Problem } from '../types';
import type { VisitBook } from '../visits';

/** Colonies, half for the race and half to judge by: as many as the terminal takes. */
const MEMBERS = 400;
/** Lives after which a first answer is shown; then to the end. */
const LIVES = [8000, 0] as const;
/** The name of the measured time. */
export const SEARCH_MEASURE = 'combcast: search';

export class Finder {
  found = $state.raw<FoundPlans | null>(null);
  /** What it was found for. */
  askedFor = $state.raw<{ scenario: Scenario; book: VisitBook | null } | null>(null);
  problem = $state.raw<Problem | null>(null);
  /** Lives lived so far; `null` while nothing is looked for. */
  lived = $state<number | null>(null);

  #worker: LongWorker;
  #number = 0;

  constructor(newWorker: () => Worker, onFatal: (message: string) => void) {
    this.#worker = new LongWorker(newWorker, onFatal);
  }

  keepFile(name: string, file: Uint8Array): Promise<void> {
    return this.#worker.keepFile(name, file);
  }

  /** Looks for better plans: from the last visit on, or without visits from a date. A first answer comes soon, a surer one follows. */
  async search(scenario: Scenario, book: VisitBook | null, from: string, wishes: Wishes): Promise<void> {
    this.stop();
    this.#number += 1;
    const number = this.#number;
    const began = performance.now();
    this.lived = 0;
    this.found = null;
    this.problem = null;
    this.askedFor = { scenario, book };
    const today = isoDate(Math.floor(Date.now() / 86_400_000));
    const progress = (lived: number) => {
      if (number === this.#number) this.lived = lived;
    };
    for (const lives of LIVES) {
      const ask = { scenario, book: book ?? { visit: [] }, wishes, on: book ? null : from, today, members: MEMBERS, lives };
      try {
        const { found } = await this.#worker.client.ask('search', ask, [], progress);
        if (number !== this.#number) return;
        this.found = found;
        if (found.finished) break;
      } catch (fault) {
        if (number !== this.#number) return;
        // Too few lives for a first answer: the whole search comes next.
        if (lives > 0 && fault instanceof ProblemError && fault.problem.place === 'search') continue;
        this.problem = problemOf(fault);
        break;
      }
    }
    performance.measure(SEARCH_MEASURE, { start: began });
    this.lived = null;
  }

  /** Gives up; what was found stays. */
  stop(): void {
    if (this.lived === null) return;
    this.#number += 1;
    this.lived = null;
    this.#worker.end();
  }
}
