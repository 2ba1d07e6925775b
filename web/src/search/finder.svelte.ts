/**
 * The search for better plans: a worker of its own looks for them piece by piece and shows the best so far. It can be stopped between
 * pieces and gone on with, and comes to the same as one that was never stopped.
 */
import { isoDate } from '../calendar';
import { LongWorker, problemOf } from '../client';
import type { Wishes } from '../protocol';
import type { Scenario } from '../scenario';
import { language } from '../text/index.svelte';
import type { FoundPlans, Problem, SearchSoFar } from '../types';
import type { VisitBook } from '../visits';

/** Colonies, half for the race and half to judge by: as many as the terminal takes. */
const MEMBERS = 400;
/** A piece takes so long, milliseconds; to stop is to wait for its end. */
const PIECE_TIME = 200;
/** So long a worker that is to stop may finish its piece, milliseconds; then it is ended, and what it has is lost. */
export const PATIENCE = 10_000;
/** The name of the measured time. */
export const SEARCH_MEASURE = 'combcast: search';

/** What is asked of a search: a plan, visits or a date, and wishes. */
export interface Asked {
  scenario: Scenario;
  book: VisitBook | null;
  /** The date from which on something may be done; with visits that of the last one. */
  from: string;
  wishes: Wishes;
}

export class Finder {
  #found = $state.raw<SearchSoFar['found']>(null);
  /** What it was found for. */
  askedFor = $state.raw<Asked | null>(null);
  problem = $state.raw<Problem | null>(null);
  busy = $state(false);
  /** It ends when its piece is done. */
  stopping = $state(false);
  /** Lives lived so far. */
  lived = $state(0);
  doing = $state<SearchSoFar['doing']>('racing');
  /** Plans in the race, or judged; 0 until there are colonies to try them on. */
  plans = $state(0);

  #worker: LongWorker;
  #number = 0;
  /** When it was first asked, the date in Greenwich: to go on is to ask the same. */
  #today = '';
  #patience: ReturnType<typeof setTimeout> | undefined;

  constructor(newWorker: () => Worker, onFatal: (message: string) => void) {
    this.#worker = new LongWorker(newWorker, onFatal);
  }

  keepFile(name: string, file: Uint8Array): Promise<void> {
    return this.#worker.keepFile(name, file);
  }

  /** The best so far, in the language of the page. */
  get found(): FoundPlans | null {
    return this.#found?.[language()] ?? null;
  }

  /** Whether this was asked last. */
  isFor({ scenario, book, from, wishes }: Asked): boolean {
    const { askedFor } = this;
    if (!askedFor || askedFor.scenario !== scenario || askedFor.book !== book) return false;
    return (book !== null || askedFor.from === from) && JSON.stringify(askedFor.wishes) === JSON.stringify(wishes);
  }

  /** Whether it was stopped on the way, and this asks for the same. */
  goesOn(asked: Asked): boolean {
    return !this.busy && !this.problem && !this.found?.finished && this.isFor(asked);
  }

  /** Looks for better plans, or goes on where that was stopped, showing the best so far; another question puts an end to the one before. */
  async search(asked: Asked): Promise<void> {
    clearTimeout(this.#patience);
    if (this.busy && this.isFor(asked)) {
      this.stopping = false;
      return;
    }
    if (!this.goesOn(asked)) {
      this.#found = null;
      this.askedFor = asked;
      this.lived = 0;
      this.plans = 0;
      this.doing = asked.book ? 'finding' : 'racing';
      this.#today = isoDate(Math.floor(Date.now() / 86_400_000));
    }
    this.#number += 1;
    const number = this.#number;
    const began = performance.now();
    this.problem = null;
    this.busy = true;
    this.stopping = false;
    const { scenario, book, from, wishes } = asked;
    const question = { scenario, book: book ?? { visit: [] }, on: book ? null : from, today: this.#today, wishes, members: MEMBERS, time: PIECE_TIME };
    try {
      for (let stage = 0, over = false; !over && !this.stopping; ) {
        const { soFar } = await this.#worker.client.ask('search', question);
        if (number !== this.#number) return;
        this.#take(soFar, stage);
        ({ stage } = soFar);
        over = this.found?.finished ?? false;
      }
    } catch (fault) {
      if (number !== this.#number) return;
      this.problem = problemOf(fault);
    }
    performance.measure(SEARCH_MEASURE, { start: began });
    this.busy = false;
    this.stopping = false;
  }

  /** The best so far are others only when a stage is over. */
  #take(soFar: SearchSoFar, stage: number): void {
    this.lived = soFar.lived;
    this.plans = soFar.plans;
    this.doing = soFar.doing;
    if (soFar.found && soFar.stage !== stage) this.#found = soFar.found;
  }

  /** Stops when the piece is done; what was found stays, and it can go on. */
  stop(): void {
    if (!this.busy) return;
    this.stopping = true;
    const number = this.#number;
    clearTimeout(this.#patience);
    this.#patience = setTimeout(() => {
      if (number === this.#number && this.stopping) this.#giveUp();
    }, PATIENCE);
  }

  /** The same question then begins anew. */
  #giveUp(): void {
    this.#number += 1;
    this.busy = false;
    this.stopping = false;
    this.#worker.end();
  }
}
