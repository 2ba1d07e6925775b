/**
 * The hive cut through the middle: the rows of every comb as they lie in the cells, and bees in the seams.
 */
import type { FrameCells, HiveCells } from '../types';
import { type CutRow, counts, cutRows } from './cells';

export interface CutFrame {
  /** Its number among all frames of the hive. */
  index: number;
  cells: FrameCells;
  rows: [CutRow[], CutRow[]];
  /** How thick the bees stand in the seam to its right, 0 to 1. */
  bees: number;
}

export interface CutBox {
  medium: boolean;
  places: number;
  frames: CutFrame[];
}

/** Beside one another so many combs take the room of a box's height. */
const HIGH = { deep: 6, medium: 4 };
/** How far bees of a cluster stand from its middle: the square in combs, for each frame that they cover (assumed). */
const APART = 0.7;
/** Mean temperatures of a day between which a cluster draws together, °C: around 14 (from memory). */
const CLUSTER = { tight: 10, loose: 18 };

interface Held {
  brood: number;
  drawn: number;
  /** Empty cells and honey on one comb. */
  meet: number;
  across: number;
  up: number;
}

/** What each frame holds, in shares of its cells, and where it hangs. */
function heldIn({ frames }: HiveCells): Held[] {
  let [inBox, floor, high] = [0, 0, 0];
  return frames.map((frame) => {
    const { egg, larva, capped, foundation, drawing, empty, hatched, nectar, honey } = counts(frame.contents);
    const share = (cells: number) => cells / frame.contents.length;
    if (frame.inBox !== inBox) [inBox, floor] = [frame.inBox, floor + high];
    high = frame.medium ? HIGH.medium : HIGH.deep;
    return {
      brood: share(egg + larva + capped),
      drawn: 1 - share(foundation + drawing),
      meet: share(empty + hatched) * share(nectar + honey),
      across: frame.place,
      up: floor + high / 2,
    };
  });
}

/** How thick bees stand in each seam: where there is brood, then where there is comb; near to one another in the cold, and without brood. */
function beesIn(held: readonly Held[], framesOfBees: number, celsius: number): number[] {
  // Around the brood; without it on the last empty cells under the honey; on bare frames in the middle of the lowest box.
  const weigh = (['brood', 'meet'] as const).find((what) => held.some((frame) => frame[what] > 0));
  const weights = held.map((frame) => (weigh ? frame[weigh] : Number(frame.up === held[0]?.up)));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const middle = (of: 'across' | 'up') => held.reduce((sum, frame, i) => sum + frame[of] * (weights[i] ?? 0), 0) / whole;
  const [across, up] = [middle('across'), middle('up')];
  const cold = (CLUSTER.loose - celsius) / (CLUSTER.loose - CLUSTER.tight);
  const together = weigh === 'brood' ? Math.min(Math.max(cold, 0), 1) : 1;
  return pour(
    framesOfBees,
    held.map(() => 1),
    held.map((frame) => {
      const away = (frame.across - across) ** 2 + (frame.up - up) ** 2;
      return (0.02 + 0.3 * frame.drawn + 2 * frame.brood) * Math.exp((-together * away) / (2 * APART * Math.max(framesOfBees, 1)));
    }),
  );
}

/** The boxes from the bottom up, and the bees in their seams on a day of this mean temperature. */
export function cut(hive: HiveCells, framesOfBees: number, celsius: number): CutBox[] {
  const bees = beesIn(heldIn(hive), framesOfBees, celsius);
  const boxes: CutBox[] = [];
  hive.frames.forEach((cells, index) => {
    const box = (boxes[cells.inBox] ??= { medium: cells.medium, places: 0, frames: [] });
    box.frames.push({ index, cells, rows: cutRows(cells), bees: bees[index] ?? 0 });
  });
  return boxes;
}

/** Pours an amount into vessels in proportion to their weights; what overflows goes to the others. */
export function pour(amount: number, room: readonly number[], weight: readonly number[]): number[] {
  const filled = room.map(() => 0);
  let left = Math.min(
    amount,
    room.reduce((sum, one) => sum + Math.max(0, one), 0),
  );
  // Each round fills a vessel, or is the last.
  for (let round = 0; round < room.length && left > 1e-6; round += 1) {
    const open = room.map((one, i) => one - (filled[i] ?? 0) > 1e-9);
    const total = weight.reduce((sum, one, i) => sum + (open[i] ? one : 0), 0);
    if (total <= 0) break;
    const amountNow = left;
    room.forEach((one, i) => {
      if (!open[i]) return;
      const share = Math.min(one - (filled[i] ?? 0), (amountNow * (weight[i] ?? 0)) / total);
      filled[i] = (filled[i] ?? 0) + share;
      left -= share;
    });
  }
  return filled;
}
