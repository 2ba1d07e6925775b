/** The range of nine in ten colonies beside the plan's own number of bees. */
import { text } from '../text/index.svelte';
import { beeCount } from '../units';

/**
 * A bare range stands only beside a number that lies in it, as both are written. Where the plan lies outside, for it has a
 * good queen, no fault, and perhaps no mites (`assumed`: the others have some), the range says whose it is.
 */
export function rangeBeside(bees: number, low: number, high: number, assumed: boolean): string {
  const say = text().bands;
  const [own, from, to] = [bees, low, high].map((count) => beeCount(count)) as [string, string, string];
  const inside = (bees >= low || own === from) && (bees <= high || own === to);
  if (inside) return say.range(from, to);
  return high < 1 ? say.othersLost(assumed) : say.others(from, to, assumed);
}
