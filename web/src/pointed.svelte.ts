/**
 * The word of the story that is pointed at: the hive and the season bring out what it speaks of.
 */
import type { Kind } from './hive/cells';
import type { RowName } from './strip/layout';
import type { Emphasis } from './types';

/** What a word speaks of: a row of the season, and cells on combs. */
interface Meant {
  row: RowName;
  cells: readonly Kind[];
  /** The least share of a frame's cells for it to be spoken of. */
  least: number;
}

const MEANT: Partial<Record<Emphasis, Meant>> = {
  bees: { row: 'bees', cells: [], least: 0 },
  brood: { row: 'brood', cells: ['egg', 'larva', 'capped'], least: 0.05 },
  eggs: { row: 'brood', cells: ['egg'], least: 0.02 },
  comb: { row: 'comb', cells: ['empty', 'hatched', 'egg', 'larva', 'capped', 'pollen', 'nectar', 'honey', 'drone'], least: 0.5 },
  brake: { row: 'brake', cells: [], least: 0 },
  weather: { row: 'weather', cells: [], least: 0 },
  food: { row: 'stores', cells: ['nectar', 'honey'], least: 0.05 },
};

let word = $state<Emphasis | null>(null);

/** The word that is pointed at, of those that speak of something drawn. */
export const pointed = (): Meant | null => (word && MEANT[word]) ?? null;

export function point(kind: Emphasis | null): void {
  word = kind;
}

/** Brings it out, and its row of the season into sight. */
export function bringUp(kind: Emphasis): void {
  point(kind);
  const meant = pointed();
  if (meant) document.querySelector(`.rows [data-row='${meant.row}']`)?.scrollIntoView({ block: 'nearest' });
}

export const speaksOf = (kind: Emphasis): boolean => kind in MEANT;
