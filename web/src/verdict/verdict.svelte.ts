/** The verdict on a hive's visits and what to do next, worked out by a worker of its own that can be stopped. */
import { isoDate } from '../calendar';
import { LongWorker, problemOf } from '../client';
import type { BandsView } from '../crowd/bands';
import type { Scenario } from '../scenario';
import type { Problem, Verdict, WhatNext } from '../types';
import type { VisitBook } from '../visits';
import { bandsOf } from './fitting';

/** Members of the ensemble that is conditioned on the visits: few for a first answer, then as many as the terminal takes. */
const MEMBERS = [500, 2000] as const;
/** Members from which the list of what to do next is read off. */
const LIST_MEMBERS = 1000;
/** The names of the measured times: to the list, and from visits to their verdict. */
export const LIST_MEASURE = 'combcast: what next';
export const VERDICT_MEASURE = 'combcast: verdict';

export class Judge {
  /** The hives of the file that was opened. */
  books = $state.raw<VisitBook[]>([]);
  /** Which of them is looked at. */
  chosen = $state(0);
  /** The hive of the yard whose drawn visits are looked at; `null`: those of a file. */
  drawnOf = $state.raw<string | null>(null);
  verdict = $state.raw<Verdict | null>(null);
  problem = $state.raw<Problem | null>(null);
  /** Lives lived so far; `null` while nothing is worked out. */
  lived = $state<number | null>(null);
  /** The verdict is that of an earlier question. */
  stale = $state(false);
  /** Somebody asked to be led to it. */
  sought = $state(false);

  /** What to do next, and what it was worked out for. */
  list = $state.raw<WhatNext | null>(null);
  listedFor = $state.raw<{ scenario: Scenario; book: VisitBook | null } | null>(null);
  listProblem = $state.raw<Problem | null>(null);
  /** Lives lived so far for the list; `null` while none is worked out. */
  listing = $state<number | null>(null);

  /** Drawn visits that somebody has taken away, as text: only another drawing brings them back by itself. */
  #putAway = '';
  /** What was asked last, so that nothing is worked out twice by itself. */
  #asked: { scenario: Scenario; book: VisitBook } | null = null;
  #askedList: { scenario: Scenario; book: VisitBook | null } | null = null;

  #fitting = $derived(this.verdict && bandsOf(this.verdict));

  #worker: LongWorker;
  #number = 0;

  constructor(newWorker: () => Worker, onFatal: (message: string) => void) {
    this.#worker = new LongWorker(newWorker, onFatal);
  }

  get book(): VisitBook | null {
    return this.books[this.chosen] ?? null;
  }

  keepFile(name: string, file: Uint8Array): Promise<void> {
    return this.#worker.keepFile(name, file);
  }

  /** Opens a file of visits; `true` when it could be read. */
  async open(file: Uint8Array, name: string): Promise<boolean> {
    try {
      const { books } = await this.#worker.client.ask('openVisits', { file, name });
      this.show(books);
      return true;
    } catch (fault) {
      this.problem = problemOf(fault);
      return false;
    }
  }

  /** Shows the visits of a file. */
  show(books: VisitBook[]): void {
    this.stop();
    this.drawnOf = null;
    this.#asked = null;
    this.books = books;
    this.chosen = 0;
    this.verdict = null;
    this.problem = null;
    this.list = null;
    this.listProblem = null;
  }

  /** Shows the visits drawn for a hive; the verdict before it stays until the next one, as an old one. */
  showDrawn(hive: string, book: VisitBook): void {
    if (this.drawnOf !== hive) this.show([]);
    this.stop();
    this.drawnOf = hive;
    this.books = [book];
    this.chosen = 0;
    this.stale = true;
    this.problem = null;
    this.#putAway = '';
  }

  /** Follows the visits drawn for the open hive, unless those of a file are looked at; `true` where others are to be shown. */
  follows(hive: string | null, book: VisitBook | null): boolean {
    if (this.drawnOf !== null && (this.drawnOf !== hive || !book)) this.show([]);
    if (!hive || !book || (this.book && this.drawnOf === null)) return false;
    const text = JSON.stringify(book);
    return text !== this.#putAway && text !== JSON.stringify(this.book);
  }

  /** Leads to the verdict on the visits that are drawn here, whatever was looked at before. */
  seekDrawn(): void {
    if (this.drawnOf === null) this.show([]);
    this.#putAway = '';
    this.sought = true;
  }

  /** Takes the visits away. */
  away(): void {
    if (this.drawnOf !== null) this.#putAway = JSON.stringify(this.book);
    this.show([]);
  }

  /** Whether the verdict on this plan has not been asked for yet. */
  isNew(scenario: Scenario): boolean {
    return this.#asked?.scenario !== scenario || this.#asked.book !== this.book;
  }

  /** The colonies that fit the visits, where the verdict on them stands for this plan. */
  fitting(scenario: Scenario): BandsView | null {
    return this.stale || this.isNew(scenario) ? null : this.#fitting;
  }

  /** Whether the list is an old one, and another has not been asked for yet. */
  isOldList(scenario: Scenario): boolean {
    const { listedFor, book } = this;
    if (!this.list || (listedFor?.scenario === scenario && listedFor.book === book)) return false;
    return this.#askedList?.scenario !== scenario || this.#askedList.book !== book;
  }

  /** Works out where the chosen hive stands under a plan; what was being worked out is given up. */
  async judge(scenario: Scenario): Promise<void> {
    const { book } = this;
    // The list has to wait for the verdict, and is still to be made.
    if (this.listing !== null) this.#askedList = null;
    this.stop();
    if (!book) return;
    this.#asked = { scenario, book };
    this.#number += 1;
    const number = this.#number;
    const began = performance.now();
    this.lived = 0;
    this.stale = true;
    const progress = (lived: number) => {
      if (number === this.#number) this.lived = lived;
    };
    try {
      for (const members of MEMBERS) {
        const ask = { scenario, book, today: greenwich(), members };
        const { verdict } = await this.#worker.client.ask('verdict', ask, [], progress);
        if (number !== this.#number) return;
        this.verdict = verdict;
        this.stale = false;
        this.problem = null;
        performance.measure(`${VERDICT_MEASURE} of ${members}`, { start: began });
      }
    } catch (fault) {
      if (number !== this.#number) return;
      this.verdict = null;
      this.problem = problemOf(fault);
    }
    this.lived = null;
  }

  /** Works out what to do next under a plan: after the chosen hive's visits, or without any from a date on for the hive of this name. */
  async next(scenario: Scenario, from: string, hive: string): Promise<void> {
    this.stop();
    const { book } = this;
    this.#askedList = { scenario, book };
    this.#number += 1;
    const number = this.#number;
    const began = performance.now();
    this.listing = 0;
    const progress = (lived: number) => {
      if (number === this.#number) this.listing = lived;
    };
    const ask = { scenario, book: book ?? { hive, visit: [] }, on: book ? null : from, today: greenwich(), members: LIST_MEMBERS };
    try {
      const { list } = await this.#worker.client.ask('next', ask, [], progress);
      if (number !== this.#number) return;
      this.list = list;
      this.listedFor = { scenario, book };
      this.listProblem = null;
      performance.measure(LIST_MEASURE, { start: began });
    } catch (fault) {
      if (number !== this.#number) return;
      this.list = null;
      this.listProblem = problemOf(fault);
    }
    this.listing = null;
  }

  /** Gives up what is being worked out. */
  stop(): void {
    if (this.lived === null && this.listing === null) return;
    this.#number += 1;
    this.lived = null;
    this.listing = null;
    this.#worker.end();
  }
}

/** The date in Greenwich. */
function greenwich(): string {
  return isoDate(Math.floor(Date.now() / 86_400_000));
}
