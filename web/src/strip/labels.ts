/** Where the names of blooms, moves and notes stand: beside their days, in the fewest lanes, so that none touches another. */
import { dayNumber } from '../calendar';
import { type DayScale, dayWidth, dayX, labelWidth, lanes } from '../scales';
import type { BloomTime } from '../types';
import type { StripLayout } from './layout';

/** Words beside their day. */
export interface Placed {
  /** `null`: there is no room for them. */
  lane: number | null;
  anchor: 'start' | 'end';
}

/** What stays free between two labels of a lane, px. */
const GAP = 8;

/** After their days; before them where they would leave the strip; nowhere where they are too long for either side. `margin`: what the words have about them. */
export function besideDays<Item extends { day: number; text: string }>(items: readonly Item[], scale: DayScale, size: number, margin: number, count: number): (Item & Placed)[] {
  const right = scale.left + scale.width;
  const boxes = items.map(({ day, text }) => {
    const x = dayX(scale, day);
    const width = labelWidth(text, size) + margin;
    const anchor = x + width > right ? ('end' as const) : ('start' as const);
    return { anchor, x: anchor === 'end' ? x - width : x, width };
  });
  const placed = lanes(boxes, count, GAP);
  const fits = (i: number) => (boxes[i]?.x ?? 0) >= scale.left - margin;
  return items.map((item, i) => ({ ...item, lane: fits(i) ? (placed[i] ?? null) : null, anchor: boxes[i]?.anchor ?? 'start' }));
}

/** Where the words stand from left to right, px, with `side` between them and their day. */
export function reachOf({ day, text, anchor }: { day: number; text: string } & Pick<Placed, 'anchor'>, scale: DayScale, size: number, side: number): { left: number; width: number } {
  const width = labelWidth(text, size);
  const x = dayX(scale, day);
  return { left: anchor === 'end' ? x - side - width : x + side, width };
}

/** A plant in bloom: the ends of its lens on the page, its lane, and where its name stands. */
export interface PlacedBloom extends BloomTime {
  a: number;
  b: number;
  lane: number;
  side: 'after' | 'before' | 'on';
}

/** What blooms in the window; what finds no lane is left out. */
export function bloomPlaces(bloom: readonly BloomTime[], scale: DayScale, layout: Pick<StripLayout, 'note' | 'right'>): PlacedBloom[] {
  const half = dayWidth(scale) / 2;
  const [left, right] = [scale.left, scale.left + scale.width];
  /** Names may go on beside the rows, where there is nothing else at this height. */
  const beside = right + Math.max(10, layout.right - 10);
  const lenses = bloom
    .filter(({ from, to }) => dayNumber(to) >= scale.first && dayNumber(from) < scale.first + scale.days)
    .toSorted((one, other) => dayNumber(one.from) - dayNumber(other.from))
    .map((one) => {
      const a = dayX(scale, dayNumber(one.from)) - half;
      const b = dayX(scale, dayNumber(one.to)) + half;
      const name = labelWidth(one.plant, layout.note) + 6;
      // The name stands after the lens, before it where there is no room, on it where there is none at all.
      const side: PlacedBloom['side'] = b < right && b + name < beside ? 'after' : a - name > left ? 'before' : 'on';
      const from = side === 'before' ? a - name : Math.max(a, left);
      const to = side === 'after' ? b + name : Math.min(b, right);
      return { ...one, a, b, side, x: from, width: to - from };
    })
    .toSorted((one, other) => one.x - other.x);
  const placed = lanes(lenses, 4, GAP);
  return lenses.flatMap((one, i) => {
    const lane = placed[i];
    return lane == null ? [] : [{ ...one, lane }];
  });
}
