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

/** The boxes from the bottom up; bees stand where there is brood, then where there is comb. */
export function cut(hive: HiveCells, framesOfBees: number): CutBox[] {
  const held = hive.frames.map(({ contents }) => {
    const { egg, larva, capped, foundation, drawing } = counts(contents);
    return { brood: (egg + larva + capped) / contents.length, drawn: 1 - (foundation + drawing) / contents.length };
  });
  const bees = pour(
    framesOfBees,
    held.map(() => 1),
    held.map(({ brood, drawn }) => 0.02 + 0.3 * drawn + 2 * brood),
  );
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
  for (let round = 0; round < 30 && left > 1e-6; round += 1) {
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
