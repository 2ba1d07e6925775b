/**
 * What the page and its worker say to each other. Every question has an id, and one answer with the same id.
 */
import type { Scenario } from './scenario';
import type { Bands, Catalogue, FrameWindow, HiveCells, Language, Outcome, Problem, SearchSoFar, Story, Trial, TrialDay, Verdict, WhatNext } from './types';
import type { UnitSystem } from './units';
import type { VisitBook } from './visits';

/** Which of the two seasons on the page. */
export type Which = 'plan' | 'twin';

/** What a search is for: names of goals, the most important first, and what may be done. */
export interface Wishes {
  goals: string[];
  what: string[];
  visitsPerWeek: number;
  noChemicals: boolean;
  /** Quart jars of syrup that may be given. */
  jars: number;
}

export interface Questions {
  /** What the model offers. */
  catalogue: { ask: object; answer: { catalogue: Catalogue } };
  /** Reads a scenario file. */
  open: { ask: { file: Uint8Array }; answer: { scenario: Scenario } };
  /** A scenario as the text of a file. */
  save: { ask: { scenario: Scenario }; answer: { text: string } };
  /** Keeps a weather file for the seasons to come, under the name that scenarios call it by. */
  keepFile: { ask: { name: string; file: Uint8Array }; answer: object };
  /**
   * Runs a season, and its twin where there is one; the events, and a day of the plan where one is asked for, are told in these units.
   * `first`: they are those of a first visit, which do without the rest of the model.
   */
  run: {
    ask: { plan: Scenario; twin: Scenario | null; date: string | null; units: UnitSystem; first: boolean };
    answer: { plan: Outcome; twin: Outcome | null; twinProblem: Problem | null; story: Story | null; ms: number };
  };
  /** Tells a day of a season that was run. */
  story: { ask: { which: Which; date: string; units: UnitSystem }; answer: { story: Story | null } };
  /** What lies in every cell of the hive on an evening; `first` as for `run`. */
  cells: { ask: { scenario: Scenario; date: string; first: boolean }; answer: { cells: HiveCells } };
  /** Tries a plan against its twin in so many seasons. */
  compare: { ask: { plan: Scenario; twin: Scenario; members: number }; answer: { trial: Trial } };
  /** Tells one date of the last trial. */
  trialOn: { ask: { date: string; plan: string; twin: string; units: UnitSystem }; answer: { day: TrialDay | null } };
  /** On which day a drone frame should come out; 0 members: in expected values. */
  window: { ask: { scenario: Scenario; date: string | null; members: number }; answer: { frame: FrameWindow } };
  /** The lives of the members `from` up to `to`, looked at every so many days, as numbers for `bands`. */
  share: { ask: { scenario: Scenario; every: number; from: number; to: number }; answer: { numbers: Float64Array } };
  /** The bands of all shares, one behind the other in the order of their members. */
  bands: { ask: { scenario: Scenario; every: number; shares: Float64Array }; answer: { bands: Bands } };
  /** Reads a file of visits. */
  openVisits: { ask: { file: Uint8Array; name: string }; answer: { books: VisitBook[] } };
  /** Visits as the text of a file. */
  saveVisits: { ask: { book: VisitBook }; answer: { text: string } };
  /** Where a hive stands after its visits; tells its progress in lives on the way. `today`: the last day that can have been. */
  verdict: { ask: { scenario: Scenario; book: VisitBook; today: string | null; members: number }; answer: { verdict: Verdict } };
  /**
   * What to do next after a hive's visits, or with a colony of this start where the book is empty; tells its progress in lives.
   * `on`: the first day, otherwise that of the last visit; `today`: the date in Greenwich.
   */
  next: { ask: { scenario: Scenario; book: VisitBook; on: string | null; today: string; members: number }; answer: { list: WhatNext } };
  /**
   * The best plans within limits: goes on for so many milliseconds with the same question's search, and begins anew with another's.
   * Dates as for `next`.
   */
  search: {
    ask: { scenario: Scenario; book: VisitBook; wishes: Wishes; on: string | null; today: string; members: number; time: number };
    answer: { soFar: SearchSoFar };
  };
}

export type Kind = keyof Questions;

/** Every question says in which language its answer's words are wanted. */
export type Question<K extends Kind = Kind> = {
  [P in K]: { id: number; kind: P; language: Language } & Questions[P]['ask'];
}[K];

export type Answer<K extends Kind = Kind> =
  | { [P in K]: { id: number; kind: P } & Questions[P]['answer'] }[K]
  | { id: number; kind: 'problem'; problem: Problem }
  /** The rest of the model, which the answer needs, could not be fetched; it may come another time. */
  | { id: number; kind: 'unloaded'; message: string }
  /** On the way to an answer: so much is done. */
  | { id: number; kind: 'progress'; done: number }
  /** The model is gone: nothing will be answered any more. */
  | { id: null; kind: 'fatal'; message: string; /** It never came. */ unloaded?: true };

/** Anything thrown, as a problem in words. */
export function asProblem(thrown: unknown): Problem {
  if (thrown && typeof thrown === 'object' && 'place' in thrown && 'message' in thrown) {
    return thrown as Problem;
  }
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  return { kind: 'program', place: '', message, language: 'en', excerpt: null };
}
