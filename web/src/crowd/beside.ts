/** The range of nine in ten colonies beside the plan's own number of bees. */
import { text } from '../text/index.svelte';
import { beeCount } from '../units';

/** The ends of a range as they are written, and whether the plan's number lies between them as it is written. */
function written(bees: number, low: number, high: number): { from: string; to: string; inside: boolean } {
  const [own, from, to] = [bees, low, high].map((count) => beeCount(count)) as [string, string, string];
  return { from, to, inside: (bees >= low || own === from) && (bees <= high || own === to) };
}

/**
 * A bare range stands only beside a number that lies in it, as both are written. Where the plan lies outside, for it has a
 * good queen, no fault, and perhaps no mites (`assumed`: the others have some), that is said, and whose the range is.
 */
export function rangeBeside(bees: number, low: number, high: number, assumed: boolean): string {
  const say = text().bands;
  const { from, to, inside } = written(bees, low, high);
  if (inside) return say.range(from, to);
  return high < 1 ? say.othersLost(assumed) : say.others(from, to, assumed, bees < low);
}

/** The range of the colonies that fit what was found. The plan knows of no visit: a number of it that lies outside is said to be the plan's. */
export function rangeFitting(bees: number, low: number, high: number): string {
  const say = text().bands;
  const { from, to, inside } = written(bees, low, high);
  return high < 1 && !inside ? say.fittingLost : say.fitting(from, to, inside);
}
