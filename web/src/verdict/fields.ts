/** Words of the verdict below the first screen. */
import { belowTexts } from '../text/below';
import type { Reading, Verdict } from '../types';

/** Of 100; the ends are never said to be certain. */
export function share(chance: number, under: string, over: string): string {
  const of100 = Math.round(100 * chance);
  if (of100 === 0) return under;
  if (of100 === 100) return over;
  return String(of100);
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

/** Frames, which are entered in quarters; whole animals that were counted. */
export const FRAMES: readonly string[] = ['frames_of_bees', 'frames_of_brood', 'frames_drawn'];
export const COUNTS: readonly string[] = ['wash'];

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
  if (field in ON_THE_SHEET) return belowTexts().visit[ON_THE_SHEET[field as keyof typeof ON_THE_SHEET]];
  const readings: Record<string, string> = belowTexts().verdict.reading;
  return readings[FIELDS[field] ?? field] ?? field;
}
