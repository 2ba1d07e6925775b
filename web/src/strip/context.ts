import { type DayScale, dayX, rise } from '../scales';
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

/** Where days and amounts stand in a row: what the row is given is looked up once, and not for each of hundreds of days. */
export function placing(scale: DayScale, top: number, bottom: number, height: number): { x: (day: number) => number; y: (value: number) => number } {
  const plain = { ...scale };
  return { x: (day) => dayX(plain, day), y: (value) => rise(value, top, bottom, height) };
}

/** The days of the window that a season has. */
export function windowDays(view: SeasonView, scale: DayScale): number[] {
  const from = Math.max(view.first, scale.first);
  const to = Math.min(view.last, scale.first + scale.days - 1);
  return to < from ? [] : Array.from({ length: to - from + 1 }, (_, i) => from + i);
}
