/**
 * What the page and its worker say to each other. Every question has an id, and one answer with the same id.
 */
import type { Scenario } from './scenario';
import type { Catalogue, HiveCells, Outcome, Problem, Story } from './types';
import type { UnitSystem } from './units';

/** Which of the two seasons on the page. */
export type Which = 'plan' | 'twin';

export interface Questions {
  /** What the model offers, and the schema of a scenario as text. */
  catalogue: { ask: object; answer: { catalogue: Catalogue; schema: string } };
  /** Reads a scenario file. */
  open: { ask: { file: Uint8Array }; answer: { scenario: Scenario } };
  /** A scenario as the text of a file. */
  save: { ask: { scenario: Scenario }; answer: { text: string } };
  /** Keeps a weather file for the seasons to come, under the name that scenarios call it by. */
  keepFile: { ask: { name: string; file: Uint8Array }; answer: object };
  /** Runs a season, and its twin where there is one. */
  run: {
    ask: { plan: Scenario; twin: Scenario | null };
    answer: { plan: Outcome; twin: Outcome | null; twinProblem: Problem | null; ms: number };
  };
  /** Tells a day of a season that was run. */
  story: { ask: { which: Which; date: string; units: UnitSystem }; answer: { story: Story | null } };
  /** What lies in every cell of the hive on an evening. */
  cells: { ask: { scenario: Scenario; date: string }; answer: { cells: HiveCells } };
}

export type Kind = keyof Questions;

export type Question<K extends Kind = Kind> = {
  [P in K]: { id: number; kind: P } & Questions[P]['ask'];
}[K];

export type Answer<K extends Kind = Kind> =
  | { [P in K]: { id: number; kind: P } & Questions[P]['answer'] }[K]
  | { id: number; kind: 'problem'; problem: Problem }
  /** The model is gone: nothing will be answered any more. */
  | { id: null; kind: 'fatal'; message: string };

/** Anything thrown, as a problem in words. */
export function asProblem(thrown: unknown): Problem {
  if (thrown && typeof thrown === 'object' && 'place' in thrown && 'message' in thrown) {
    return thrown as Problem;
  }
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  return { kind: 'program', place: '', message, excerpt: null };
}
