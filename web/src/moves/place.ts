/** Where a drone frame goes. */
import { counts } from '../hive/cells';
import type { NewFrame } from '../scenario';
import type { FrameCells, HiveCells } from '../types';

const BROOD = ['egg', 'larva', 'capped', 'drone'] as const;

/**
 * The place beside the brood nest, in the box with most of it: of the two the one whose frame holds less. A frame with comb has
 * to make room. `null` where there is no brood yet: then the first free place will do.
 */
export function besideNest(cells: HiveCells | null): Pick<NewFrame, 'at' | 'replace'> | null {
  if (!cells) return null;
  const frames = cells.frames.map((frame) => {
    const kinds = counts(frame.contents);
    const held = kinds.pollen + kinds.nectar + kinds.honey + kinds.hatched + kinds.empty;
    return { frame, brood: BROOD.reduce((sum, kind) => sum + kinds[kind], 0), held };
  });
  const most = frames.toSorted((a, b) => b.brood - a.brood)[0];
  if (!most || most.brood === 0) return null;
  const inBox = frames.filter(({ frame }) => frame.inBox === most.frame.inBox);
  const nest = inBox.filter(({ brood }) => brood > 0).map(({ frame }) => frame.place);
  const beside = inBox
    .filter(({ frame }) => frame.place === Math.min(...nest) - 1 || frame.place === Math.max(...nest) + 1)
    .toSorted((a, b) => a.held - b.held)[0];
  // The nest fills the box: its outermost frame, that with least brood.
  const chosen = beside ?? inBox.filter(({ frame }) => frame.place === Math.min(...nest) || frame.place === Math.max(...nest)).toSorted((a, b) => a.brood - b.brood)[0];
  if (!chosen) return null;
  return { at: { box: chosen.frame.inBox + 1, place: chosen.frame.place + 1 }, replace: hasComb(chosen.frame) };
}

/** Whether anything is drawn in it. */
function hasComb({ contents }: FrameCells): boolean {
  return contents.some((content) => content > 0);
}
