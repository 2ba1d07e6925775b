import { text } from '../text/index.svelte';
import type { Reading } from '../types';

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

/** What is seen or not, in place of an amount. */
export const SIGHTS: readonly string[] = ['eggs', 'queen', 'charged_cells', 'capped_cells'];

/** Fields of a visit's file that have a name of their own there. */
const FIELDS: Record<string, Reading> = {
  frames_of_stores: 'stores',
  stores_kg: 'stores',
  eggs_seen: 'eggs',
  queen_seen: 'queen',
  syrup_taken: 'syrup',
  weight_kg: 'weight',
};

/** What a field of a visit is called. */
export function fieldName(field: string): string {
  if (field === 'cups') return text().visit.cups;
  const readings: Record<string, string> = text().verdict.reading;
  return readings[FIELDS[field] ?? field] ?? field;
}
