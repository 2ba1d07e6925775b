/**
 * A season as the drawings read it: columns by name over day numbers of the calendar.
 */
import { dayNumber } from './calendar';
import type { Brake, Catalogue, Outcome, QueenState } from './types';
import { text } from './text/index.svelte';

/** In the ribbon of brakes, a day on which no bee is left: nothing holds a queen back then. */
const LOST = 255;

export class SeasonView {
  /** Day number of the first day. */
  readonly first: number;
  readonly days: number;
  readonly outcome: Outcome;
  /** What holds the queen back, day by day: codes for `brakeOf`. */
  readonly brakes: Uint8Array;
  #columns: Map<string, Float64Array>;
  #brakes: readonly Brake[];
  #origins: readonly string[];
  #queens: readonly QueenState[];

  constructor(outcome: Outcome, catalogue: Catalogue) {
    this.first = dayNumber(outcome.first);
    this.days = outcome.days;
    this.outcome = outcome;
    this.#brakes = catalogue.brakes;
    this.#origins = catalogue.origins;
    this.#queens = catalogue.queenStates;
    this.#columns = new Map(
      catalogue.columns.map(({ name }, i) => [name, outcome.values.subarray(i * this.days, (i + 1) * this.days)]),
    );
    const bees = this.column('adult_bees');
    this.brakes = outcome.brakes.map((code, i) => ((bees[i] ?? 0) < 1 ? LOST : code));
  }

  get last(): number {
    return this.first + this.days - 1;
  }

  column(name: string): Float64Array {
    const column = this.#columns.get(name);
    if (!column) throw new Error(`The model has no column "${name}".`);
    return column;
  }

  /** One number of one day; `NaN` outside the season. */
  at(name: string, day: number): number {
    return this.column(name)[day - this.first] ?? Number.NaN;
  }

  /** The mean temperature of a day, °C. */
  meanC(day: number): number {
    return (this.at('high_c', day) + this.at('low_c', day)) / 2;
  }

  brake(day: number): Brake {
    return this.brakeOf(this.brakes[day - this.first] ?? -1);
  }

  /** Whether no bee is left on a day. */
  lost(day: number): boolean {
    return this.brakes[day - this.first] === LOST;
  }

  brakeOf(code: number): Brake {
    const name = code === LOST ? 'lost' : (this.#brakes[code]?.name ?? 'unknown');
    return { name, words: text().strip.brakes[name] ?? name };
  }

  queenOf(code: number): QueenState {
    return this.#queens[code] ?? 'none';
  }

  /** Whether the season has mites worth a row. */
  get hasMites(): boolean {
    return this.top(['mites_per_100_bees'], this.first, this.last) >= 0.05;
  }

  /** Whether anything befalls the queen after she has begun to lay. */
  get hasQueenNews(): boolean {
    const laying = this.#queens.indexOf('laying');
    const began = this.outcome.queens.indexOf(laying);
    return (
      this.outcome.queens.subarray(Math.max(0, began)).some((code) => code !== laying) ||
      this.top(['charged_cells', 'capped_queen_cells'], this.first, this.last) >= 1
    );
  }

  origin(day: number): string {
    return this.#origins[this.outcome.origins[day - this.first] ?? -1] ?? 'measured';
  }

  /** The largest value of a sum of columns within a window of days. */
  top(names: readonly string[], from: number, to: number): number {
    const columns = names.map((name) => this.column(name));
    let top = 0;
    for (let i = Math.max(0, from - this.first); i < Math.min(this.days, to - this.first + 1); i += 1) {
      top = Math.max(
        top,
        columns.reduce((sum, column) => sum + (column[i] ?? 0), 0),
      );
    }
    return top;
  }
}
