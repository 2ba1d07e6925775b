/**
 * What a season says about a lesson: the numbers that the lesson's sentences speak of, read off the season that
 * was just run.
 */
import { shortDate } from '../calendar';
import type { SeasonView } from '../season';
import type { Told } from '../text/en/lessons';
import { beeCount, figure } from '../units';
import type { Drawn } from './lessons';

/** A number and its day of the calendar. */
export interface Point {
  day: number;
  value: number;
}

export interface Facts {
  start: Point;
  /** On the day that is spoken of. */
  key: Point;
  /** Within the days that are drawn. */
  lowest: Point;
  highest: Point;
  end: Point;
  /** Days of those drawn that each brake held her back, by the brake's name. */
  braked: Readonly<Record<string, number>>;
  /** The first day with as many as at the start again, after there were fewer. */
  back: number | null;
  /** The first day with twice as many as at the start. */
  doubled: number | null;
  /** The first day on which young bees come out. */
  firstYoung: number | null;
  /** The first day without bees. */
  lost: number | null;
  /** On any day of the season, any column. */
  at: (column: string, offset: number) => number;
  /** The day of the calendar of an offset. */
  dayOf: (offset: number) => number;
  /** The sum of a column over the days that are drawn. */
  sum: (column: string) => number;
}

/** The last offset that is drawn. */
export function lastOffset({ from, every, points }: Drawn): number {
  return from + every * points;
}

export function factsOf(season: SeasonView, drawn: Drawn, key: number): Facts {
  const values = season.column(drawn.column);
  const last = Math.min(lastOffset(drawn), season.days - 1);
  const point = (offset: number): Point => ({ day: season.first + offset, value: values[offset] ?? Number.NaN });
  const offsets = Array.from({ length: last - drawn.from + 1 }, (_, i) => drawn.from + i);
  const best = (better: (a: number, b: number) => boolean) =>
    point(offsets.reduce((found, i) => (better(point(i).value, point(found).value) ? i : found), drawn.from));
  const start = point(drawn.from);
  const firstOf = (test: (offset: number) => boolean): number | null => {
    const found = offsets.find(test);
    return found === undefined ? null : season.first + found;
  };
  let fewer = false;
  const braked: Record<string, number> = {};
  for (const offset of offsets) {
    const { name } = season.brake(season.first + offset);
    braked[name] = (braked[name] ?? 0) + 1;
  }
  const bees = season.column('adult_bees');
  const emerged = season.column('emerged');
  return {
    start,
    key: point(key),
    lowest: best((a, b) => a < b),
    highest: best((a, b) => a > b),
    end: point(last),
    braked,
    back: firstOf((i) => {
      fewer ||= point(i).value < start.value * 0.995;
      return fewer && point(i).value >= start.value;
    }),
    doubled: firstOf((i) => point(i).value >= 2 * start.value),
    firstYoung: firstOf((i) => (emerged[i] ?? 0) >= 1),
    lost: firstOf((i) => (bees[i] ?? 0) < 1),
    at: (column, offset) => season.at(column, season.first + offset),
    dayOf: (offset) => season.first + offset,
    sum: (column) => offsets.reduce((sum, i) => sum + (season.column(column)[i] ?? 0), 0),
  };
}

/** A value of the column that is drawn, as closely as anybody counts it. */
export function said(value: number, { column }: Pick<Drawn, 'column'>): string {
  return column === 'mites_per_100_bees' ? figure(value, 1) : beeCount(value);
}

/** The facts in words, for the sentence that a lesson says of its season. */
export function toldOf(facts: Facts, drawn: Drawn): Told {
  const date = (day: number | null) => (day === null ? null : shortDate(day));
  return {
    first: shortDate(facts.start.day),
    start: said(facts.start.value, drawn),
    last: shortDate(facts.end.day),
    end: said(facts.end.value, drawn),
    firstYoung: date(facts.firstYoung),
    back: date(facts.back),
    doubled: date(facts.doubled),
    cells: facts.braked.empty_cells ?? 0,
    pollen: facts.braked.pollen ?? 0,
    warmth: facts.braked.warmth ?? 0,
    days: Object.values(facts.braked).reduce((sum, days) => sum + days, 0),
  };
}

export type Comparison = 'fewer' | 'same' | 'more';

/** What is called about the same: within a twentieth of the greater. */
const SAME = 0.05;

/** How `value` stands to `other`. */
export function compared(value: number, other: number): Comparison {
  if (Math.abs(value - other) <= SAME * Math.max(Math.abs(value), Math.abs(other))) return 'same';
  return value < other ? 'fewer' : 'more';
}

/** How many of `others` are above `value`, and where that puts it: in step unless at most one in twelve is beyond it. */
export function ranked(value: number, others: readonly number[]): { above: number; below: number; stands: Comparison } {
  const above = others.filter((other) => other > value).length;
  const below = others.filter((other) => other < value).length;
  const few = Math.floor(others.length / 12);
  return { above, below, stands: below <= few ? 'fewer' : above <= few ? 'more' : 'same' };
}

/** A prediction beside what came: on the key day, and on average over the points drawn. */
export interface Judged {
  drawn: number;
  came: number;
  off: number;
  /** Mean distance of the points from the season, without sign. */
  mean: number;
  /** Where the drawn line is lowest. */
  lowest: Point;
}

export function judged(points: readonly number[], season: SeasonView, drawn: Drawn, key: number): Judged {
  const values = season.column(drawn.column);
  const offset = (i: number) => drawn.from + i * drawn.every;
  const all = [values[drawn.from] ?? 0, ...points];
  const at = (key - drawn.from) / drawn.every;
  const before = Math.floor(at);
  const share = at - before;
  const line = (all[before] ?? Number.NaN) * (1 - share) + (share > 0 ? (all[before + 1] ?? Number.NaN) * share : 0);
  const came = values[key] ?? Number.NaN;
  const least = all.reduce((found, value, i) => (value < (all[found] as number) ? i : found), 0);
  return {
    drawn: line,
    came,
    off: line - came,
    mean: points.reduce((sum, value, i) => sum + Math.abs(value - (values[offset(i + 1)] ?? 0)), 0) / points.length,
    lowest: { day: season.first + offset(least), value: all[least] as number },
  };
}
