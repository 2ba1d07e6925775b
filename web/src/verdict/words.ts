import { text } from '../text/index.svelte';
import type { Reading, Verdict } from '../types';

/** Of 100; the ends are never said to be certain. */
export function share(chance: number, under: string, over: string): string {
  const of100 = Math.round(100 * chance);
  if (of100 === 0) return under;
  if (of100 === 100) return over;
  return String(of100);
}

/** Days rounded; `null` where there are none. */
export function wholeDays(days: number | null): number | null {
  return days === null ? null : Math.round(days) + 0;
}

/** Fewer colonies than this share of the members do not carry a verdict; it is the share below which the model warns. */
const FEW = 0.01;

/** How many colonies carry the verdict at the visit that left fewest, where they are too few for a sure word; `null` where they are enough. */
export function fewThatFit({ steps, members }: Verdict): number | null {
  const fewest = Math.min(...steps.map(({ effective }) => effective));
  return fewest < Math.max(3, FEW * members) ? Math.max(1, Math.round(fewest)) : null;
}

/** Between how many days nine in ten of the colonies that fit lie: always, where it can be told in days. */
function rangeOf({ word, days_ahead, days_least, days_most }: Verdict['standing'], bySide: boolean): string {
  const say = text().verdict;
  const [one, other] = [wholeDays(days_least), wholeDays(days_most)];
  if (word === 'lost' || word === 'at_odds' || one === null || other === null || one === other) return '';
  const [least, most] = [Math.min(one, other), Math.max(one, other)];
  if (least < 0 && most > 0) return say.daysEitherSide(-least, most);
  const behind = most <= 0;
  const [from, to] = behind ? [-most, -least] : [least, most];
  // Beside "behind by about 5 days" the side is said already.
  if (bySide && behind === (days_ahead ?? 0) < 0) return say.daysRange(from, to);
  return (behind ? say.daysBehind : say.daysAhead)(from, to);
}

/** The verdict in a few words, and how sure they are. */
export function headlineOf(verdict: Verdict): { words: string; range: string } {
  const { standing } = verdict;
  const say = text().verdict;
  const days = wholeDays(standing.days_ahead);
  const off = ['in_step', 'lost', 'at_odds'].includes(standing.word) || !days ? '' : say.byDays(Math.abs(days));
  const words = `${say.standing[standing.word]}${off}`;
  return { words: fewThatFit(verdict) === null ? words : say.perhaps(words), range: rangeOf(standing, off !== '') };
}

/** What does not fit. Syrup under a plan without any feed is one contradiction, not one at every visit: at so many of them. */
export function unfitUnder({ unfit }: Verdict, fed: boolean): { unfed: number; unfit: Verdict['unfit'] } {
  const syrup = fed ? 0 : unfit.filter(({ what }) => what === 'syrup').length;
  return { unfed: syrup, unfit: syrup > 0 ? unfit.filter(({ what }) => what !== 'syrup') : unfit };
}

/** What was seen at the last visit; visits are counted from 1. */
export const seenLast = ({ seen, visits }: Verdict): Verdict['seen'] => seen.filter(({ visit }) => visit === visits);

/** What is seen or not, in place of an amount. */
export const SIGHTS: readonly string[] = ['eggs', 'queen', 'charged_cells', 'capped_cells'];

/** Fields of a visit's file that have a name of their own there. */
const FIELDS: Record<string, Reading> = {
  frames_of_stores: 'stores',
  stores_kg: 'stores',
  eggs_seen: 'eggs',
  queen_seen: 'queen',
};
/** Fields that the verdict judges by another measure than the sheet asks for: they go by the sheet's name. */
const ON_THE_SHEET = { cups: 'cups', syrup_taken: 'syrup', weight_kg: 'weight' } as const;

/** What a field of a visit is called. */
export function fieldName(field: string): string {
  if (field in ON_THE_SHEET) return text().visit[ON_THE_SHEET[field as keyof typeof ON_THE_SHEET]];
  const readings: Record<string, string> = text().verdict.reading;
  return readings[FIELDS[field] ?? field] ?? field;
}
