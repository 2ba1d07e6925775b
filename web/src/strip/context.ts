import type { DayScale } from '../scales';
import type { SeasonView } from '../season';
import type { UnitSystem } from '../units';
import type { RowPlace, StripLayout } from './layout';

/** What each row of the strip is given to draw itself. */
export interface RowProps {
  plan: SeasonView;
  twin: SeasonView | null;
  scale: DayScale;
  place: RowPlace;
  layout: StripLayout;
  units: UnitSystem;
  /** Where the line of the chosen day stands. */
  today: number;
}

/** The days of the window that a season has. */
export function windowDays(view: SeasonView, scale: DayScale): number[] {
  const from = Math.max(view.first, scale.first);
  const to = Math.min(view.last, scale.first + scale.days - 1);
  return to < from ? [] : Array.from({ length: to - from + 1 }, (_, i) => from + i);
}
