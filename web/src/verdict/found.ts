import { dayNumber } from '../calendar';
import type { SeasonView } from '../season';
import type { Cross } from '../strip/Crosses.svelte';
import type { Visit, VisitBook } from '../visits';

/** How much of `column` one of `frames` is, by the season itself; 0 where it has neither. */
export function perFrame(plan: SeasonView, frames: string, columns: readonly string[]): number {
  for (let day = plan.first; day <= plan.last; day += 1) {
    const counted = plan.at(frames, day);
    if (counted > 0.5) return columns.reduce((sum, column) => sum + plan.at(column, day), 0) / counted;
  }
  return 0;
}

/** What was found at the visits of a book, as crosses in a row whose unit is `factor` times a frame. */
export function crosses(book: VisitBook | null, what: (visit: Visit) => readonly number[] | undefined, factor: number): Cross[] {
  return (book?.visit ?? []).flatMap((visit) => {
    const boxes = what(visit) ?? [];
    const day = dayNumber(visit.date);
    if (boxes.length === 0 || Number.isNaN(day)) return [];
    return [{ day, value: factor * boxes.reduce((sum, frames) => sum + frames, 0) }];
  });
}
