/**
 * A frame as the sheet counts it. The cut through the middle of a comb makes a high slab of a round nest; here each
 * content is as high as its share of the frame is, so that what is drawn alike comes to the same figures.
 */
import { BROOD, broodCells, type CutRow, counts, type Kind, KINDS_IN_ORDER } from '../hive/cells';
import type { CutBox } from '../hive/cut';
import type { FrameCells, HiveCells } from '../types';

/** What gives way to brood, the first first: a full frame of brood has free cells in it and around it. */
const GIVE_WAY: readonly Kind[] = ['hatched', 'empty', 'honey', 'nectar', 'pollen', 'drone', 'drawing', 'foundation'];
/** How deep a row is drawn in which comb is being built. */
const BEING_BUILT = 0.5;

/** How much of a frame each content takes, where its brood counts as so many full frames. */
function sharesOf(frame: FrameCells, brood: number): Record<Kind, number> {
  const all = counts(frame.contents);
  const cells = broodCells(frame);
  const shares = Object.fromEntries(KINDS_IN_ORDER.map((kind) => [kind, all[kind] / frame.contents.length])) as Record<Kind, number>;
  const full = Math.min(1, brood);
  let more = full - cells / frame.contents.length;
  for (const kind of BROOD) shares[kind] = cells > 0 ? (all[kind] / cells) * full : 0;
  for (const kind of GIVE_WAY) {
    // Where a full frame of brood has more cells than this one, the free ones are more.
    const given = more < 0 && kind !== 'empty' ? 0 : Math.min(more, shares[kind]);
    shares[kind] -= given;
    more -= given;
  }
  return shares;
}

/** Rows of a comb from the top bar down: stores, pollen, brood, empty comb, what is not drawn, each as high as its share. */
export function shareRows(frame: FrameCells, brood: number): CutRow[] {
  const shares = sharesOf(frame, brood);
  let reached = 0;
  return KINDS_IN_ORDER.flatMap((kind) => {
    const from = Math.round(reached * frame.rows);
    reached += shares[kind];
    const drawn = kind === 'foundation' ? 0 : kind === 'drawing' ? BEING_BUILT : 1;
    return Array.from({ length: Math.round(reached * frame.rows) - from }, (): CutRow => ({ drawn, kind: drawn < 1 ? 'empty' : kind }));
  });
}

/** A figure of the whole hive, parted as its cells lie. */
export function parted(total: number, shares: readonly number[]): number[] {
  const sum = shares.reduce((all, one) => all + one, 0);
  return shares.map((share) => (sum > 0 ? (total * share) / sum : 0));
}

/** How many full frames of brood lie in each frame of a hive. */
export const broodIn = ({ frames }: HiveCells, framesOfBrood: number): number[] => parted(framesOfBrood, frames.map((frame) => broodCells(frame)));

/** The boxes of a hive with each frame by its shares: what stands beside a drawing of what was found. */
export function byShares(boxes: readonly CutBox[], cells: HiveCells, framesOfBrood: number): CutBox[] {
  const brood = broodIn(cells, framesOfBrood);
  return boxes.map((box) => ({
    ...box,
    frames: box.frames.map((frame) => {
      const rows = shareRows(frame.cells, brood[frame.index] ?? 0);
      return { ...frame, rows: [rows, rows] as [CutRow[], CutRow[]] };
    }),
  }));
}
