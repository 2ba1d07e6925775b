/**
 * Plan less twin over the season: of their two mean seasons, or of the many in which both were tried.
 */
import { dayNumber } from '../calendar';
import { runs } from '../scales';
import type { SeasonView } from '../season';
import type { Session } from '../session.svelte';
import { text } from '../text/index.svelte';
import type { Trial } from '../types';
import { beeCount, figure, type Quantity, shown, unitOf, type UnitSystem } from '../units';

interface Measure {
  /** The columns of a season whose sum it is. */
  columns: readonly string[];
  quantity?: Quantity;
  decimals: number;
  /** The least that a row reaches from top to bottom, so that next to nothing does not look like much. */
  span: number;
}

/** What can be compared, by the model's names for it; the main measure first. */
export const MEASURES = {
  bees: { columns: ['adult_bees'], decimals: 0, span: 500 },
  brood_frames: { columns: ['frames_of_brood'], decimals: 1, span: 1 },
  drawn_frames: { columns: ['drawn_frames'], decimals: 1, span: 1 },
  honey_kg: { columns: ['honey_kg'], quantity: 'stores', decimals: 1, span: 1 },
  mites: { columns: ['mites_on_bees', 'mites_in_cells'], decimals: 0, span: 20 },
  mites_per_100_bees: { columns: ['mites_per_100_bees'], decimals: 1, span: 1 },
} as const satisfies Record<string, Measure>;
export type MeasureName = keyof typeof MEASURES;

export const measureOf = (name: MeasureName): Measure => MEASURES[name];

/** Of 100 seasons so many agree where the rule is heavy. */
const ALL_BUT = 0.95;

export interface Difference {
  measure: MeasureName;
  /** Day number of the first day. */
  first: number;
  /** Of the mean seasons; the middle of those tried, where they were. Not a number where the twin has no season. */
  line: Float64Array;
  /** Between what nine seasons in ten lie, and the share of them in which the plan is the better: with more of it, or with less. */
  tried: { low: Float64Array; high: Float64Array; better: Float64Array; moreIsBetter: boolean; members: number } | null;
}

/** Of the mean seasons, day by day of the plan's. */
export function meanDifference(plan: SeasonView, twin: SeasonView, measure: MeasureName): Difference {
  const { columns } = measureOf(measure);
  const pairs = columns.map((name) => [plan.column(name), twin.column(name)] as const);
  const lag = plan.first - twin.first;
  const line = Float64Array.from({ length: plan.days }, (_, i) =>
    pairs.reduce((sum, [of, less]) => sum + (of[i] ?? Number.NaN) - (less[i + lag] ?? Number.NaN), 0),
  );
  return { measure, first: plan.first, line, tried: null };
}

/** Of the seasons of a trial; `null` where it has no such measure. */
export function triedDifference(trial: Trial, measure: MeasureName): Difference | null {
  const at = trial.measures.findIndex(({ name }) => name === measure);
  if (at < 0) return null;
  const part = (figure: number) => trial.values.subarray((at * 4 + figure) * trial.days, (at * 4 + figure + 1) * trial.days);
  const [low, line, high, better] = [part(0), part(1), part(2), part(3)];
  return { measure, first: dayNumber(trial.first), line, tried: { low, high, better, moreIsBetter: trial.measures[at]?.moreIsBetter ?? true, members: trial.members } };
}

/** Between the plan on the page and its twin: as tried, where it is these two that were, otherwise of the mean seasons. */
export function differenceBetween({ plan, twin, shown, shownTwin, trials }: Session): Difference | null {
  if (!plan || !twin) return null;
  const { trial, of, measure } = trials;
  const tried = trial && of?.plan === shown && of?.twin === shownTwin && triedDifference(trial, measure);
  return tried || meanDifference(plan, twin, measure);
}

export const differenceOn = ({ line, first }: Difference, day: number): number => line[day - first] ?? Number.NaN;

/** Stretches of days on which nearly all seasons agree, for the plan or against it. */
export function agreed({ tried, first }: Difference): { from: number; to: number; better: boolean }[] {
  if (!tried) return [];
  const { low, high, better, moreIsBetter } = tried;
  const sides = Array.from(better, (share, i) => {
    if (share >= ALL_BUT) return 1;
    // Where nothing differs the plan is better in no season, and worse in none.
    const worse = moreIsBetter ? (high[i] ?? 0) < 0 : (low[i] ?? 0) > 0;
    return share <= 1 - ALL_BUT && worse ? -1 : 0;
  });
  return runs(sides).flatMap(({ value, start, end }) => (value === 0 ? [] : [{ from: first + start, to: first + end - 1, better: value > 0 }]));
}

/** `+8,100`, `−2.5`; `null` where it comes to nothing as it is shown. */
export function signed(measure: MeasureName, value: number, units: UnitSystem): string | null {
  const { quantity, decimals } = measureOf(measure);
  const amount = Math.abs(quantity ? shown(value, quantity, units) : value);
  // A handful of bees is no difference between colonies.
  const digits = measure === 'bees' ? beeCount(amount < 5 ? 0 : amount) : figure(amount, decimals);
  if (!/[1-9]/.test(digits)) return null;
  return `${value > 0 ? '+' : '−'}${digits}`;
}

/** `+8,100 bees`: the difference of a day in words. */
export function sayDifference(difference: Difference, day: number, units: UnitSystem): string {
  const value = differenceOn(difference, day);
  if (!Number.isFinite(value)) return '–';
  const words = text().strip;
  const digits = signed(difference.measure, value, units);
  return digits === null ? words.noDifference : words.difference.amount[difference.measure](digits, unitOf('stores', units).label);
}

/** `+1,400 to +6,400`: between what nine seasons in ten lie; nothing where none were tried. */
export function sayRange({ tried, first, measure }: Difference, day: number, units: UnitSystem): string {
  const [low, high] = [tried?.low[day - first], tried?.high[day - first]];
  if (low === undefined || high === undefined) return '';
  const [from, to] = [low, high].map((value) => signed(measure, value, units) ?? '0');
  return from === '0' && to === '0' ? '' : text().strip.difference.range(from ?? '', to ?? '');
}
