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

/** The verdict in a few words, and how sure they are. */
export function headlineOf({ standing }: Verdict): { words: string; range: string } {
  const say = text().verdict;
  const days = wholeDays(standing.days_ahead);
  const off = ['in_step', 'lost', 'at_odds'].includes(standing.word) || !days ? '' : say.byDays(Math.abs(days));
  const [least, most] = [wholeDays(standing.days_least), wholeDays(standing.days_most)];
  let range = '';
  if (off && days && least !== null && most !== null && least !== most) {
    const [from, to] = days < 0 ? [-most, -least] : [least, most];
    range = from >= 0 ? say.daysRange(from, to) : days < 0 ? say.daysEitherSide(to, -from) : say.daysEitherSide(-from, to);
  }
  return { words: `${say.standing[standing.word]}${off}`, range };
}

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
