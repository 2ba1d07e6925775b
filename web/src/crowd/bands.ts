import { dayNumber } from '../calendar';
import type { Bands } from '../types';

/** The lines of a band: of 100 colonies so many lie below. */
export const LINES = [5, 25, 50, 75, 95] as const;
export type Line = (typeof LINES)[number];

/** Two lines over days in a row, for drawing. */
export interface Band {
  /** Day number of the first of them. */
  first: number;
  low: Float64Array;
  high: Float64Array;
}

/** Bands by day: between the dates that were looked at they run straight. */
export class BandsView {
  readonly first: number;
  readonly #days: number[];

  constructor(readonly bands: Bands) {
    this.#days = bands.dates.map(dayNumber);
    this.first = this.#days[0] ?? 0;
  }

  get last(): number {
    return this.#days.at(-1) ?? 0;
  }

  /** A line's value on a day; `null` outside the season and for a measure that there is not. */
  at(measure: string, line: Line, day: number): number | null {
    const offset = this.#offset(measure, line);
    const days = this.#days;
    if (offset === null || day < this.first || day > this.last) return null;
    let next = days.findIndex((date) => date >= day);
    if (next < 1) next = 1;
    const [from, to] = [days[next - 1] ?? 0, days[next] ?? days[next - 1] ?? 0];
    const [a, b] = [this.bands.values[offset + next - 1] ?? 0, this.bands.values[offset + next] ?? 0];
    return days.length < 2 ? (this.bands.values[offset] ?? 0) : a + ((b - a) * (day - from)) / (to - from);
  }

  /** The band between two lines, `factor` times as much, for each day of a season. */
  between(measure: string, low: Line, high: Line, factor = 1): Band | null {
    const [below, above] = [this.#offset(measure, low), this.#offset(measure, high)];
    if (below === null || above === null) return null;
    const line = (offset: number) => {
      const values = new Float64Array(this.last - this.first + 1);
      const days = this.#days;
      for (let k = 0; k + 1 < days.length; k += 1) {
        const [from, to] = [days[k] ?? 0, days[k + 1] ?? 0];
        const [a, b] = [this.bands.values[offset + k] ?? 0, this.bands.values[offset + k + 1] ?? 0];
        for (let day = from; day <= to; day += 1) values[day - this.first] = factor * (a + ((b - a) * (day - from)) / (to - from));
      }
      if (days.length === 1) values[0] = factor * (this.bands.values[offset] ?? 0);
      return values;
    };
    return { first: this.first, low: line(below), high: line(above) };
  }

  #offset(measure: string, line: Line): number | null {
    const place = this.bands.measures.indexOf(measure);
    return place < 0 ? null : (place * LINES.length + LINES.indexOf(line)) * this.#days.length;
  }
}

/** Behind a season's rows: nine in ten colonies and the middle half of them, in bees; nine in ten, in cells of brood. */
export interface Behind {
  bees: { most: Band; half: Band } | null;
  brood: Band | null;
  /** Nine in ten of those that fit what was found: from the last visit on they take the place of the others. */
  fitting: { bees: Band | null; brood: Band | null } | null;
}

/** Those of these days that a band has. */
export const daysOf = (band: Band, days: readonly number[]): number[] => days.filter((day) => day >= band.first && day < band.first + band.low.length);

/** The bands behind a season; none where they are those of other days. They stay while those of a changed plan are on their way. */
export function bandsBehind(bands: BandsView | null, fitting: BandsView | null, season: { first: number; last: number }, cellsPerFrame: number): Behind {
  const like = bands && bands.first === season.first && bands.last === season.last ? bands : null;
  const between = (view: BandsView | null, measure: string, low: Line, high: Line, factor = 1) => {
    const band = view && view.between(measure, low, high, factor);
    if (!band || !fitting || view === fitting) return band;
    const days = Math.max(0, fitting.first - band.first + 1);
    return { ...band, low: band.low.subarray(0, days), high: band.high.subarray(0, days) };
  };
  const brood = (view: BandsView | null) => between(view, 'brood_frames', 5, 95, cellsPerFrame);
  const [most, half] = [between(like, 'bees', 5, 95), between(like, 'bees', 25, 75)];
  return { bees: most && half && { most, half }, brood: brood(like), fitting: fitting && { bees: between(fitting, 'bees', 5, 95), brood: brood(fitting) } };
}
