/** What held her back, as stretches of a ribbon, and where each texture that is seen has its name: in its widest stretch, or under the ribbon. */
import { type DayScale, dayWidth, dayX, labelWidth, runs } from '../scales';
import type { SeasonView } from '../season';
import type { StripLayout } from './layout';

/** Days in a row with the same brake. */
export interface Stretch {
  brake: string;
  words: string;
  x: number;
  width: number;
}

/** A name under the ribbon, beside a piece of its texture; of the thin ribbon itself without one. */
export interface NameUnder {
  brake: string | null;
  words: string;
  x: number;
  lane: number;
}

export interface BrakeNames {
  inside: Stretch[];
  under: NameUnder[];
  /** Lines that those under the ribbon take. */
  lanes: number;
}

/** What a word has about it in the ribbon, and how wide the piece of texture before one under it is, px. */
export const MARGIN = 10;
export const SWATCH = 14;
const GAP = 14;

export function stretchesOf(view: SeasonView, scale: DayScale): Stretch[] {
  const step = dayWidth(scale);
  const [from, to] = [Math.max(0, scale.first - view.first), Math.min(view.days, scale.first + scale.days - view.first)];
  return runs(view.brakes, from, to).map(({ value, start, end }) => {
    const { name, words } = view.brakeOf(value);
    return { brake: name, words, x: dayX(scale, view.first + start) - step / 2, width: (end - start) * step };
  });
}

/** `twin`: what the thin ribbon below is called, where nothing beside it says so. */
export function brakeNames(plan: readonly Stretch[], thin: readonly Stretch[], scale: DayScale, { label, figure, larger }: Pick<StripLayout, 'label' | 'figure' | 'larger'>, twin = ''): BrakeNames {
  const widest = new Map<string, Stretch>();
  for (const stretch of plan) if (stretch.width > (widest.get(stretch.brake)?.width ?? 0)) widest.set(stretch.brake, stretch);
  // A word that would hide more than half of its stretch stands under the ribbon.
  const inside = [...widest.values()].filter(({ words, width }) => 2 * (labelWidth(words, label) + MARGIN) < width);
  const said = new Set(inside.map(({ brake }) => brake));
  const names: { brake: string | null; words: string }[] = [...plan, ...thin].filter(({ brake }) => !said.has(brake) && said.add(brake));
  if (twin) names.push({ brake: null, words: twin });
  const under: NameUnder[] = [];
  let [x, lane] = [scale.left, 0];
  for (const { brake, words } of names) {
    const width = (brake === null ? 0 : (SWATCH + 4) * larger) + labelWidth(words, figure);
    if (x > scale.left && x + width > scale.left + scale.width) [x, lane] = [scale.left, lane + 1];
    under.push({ brake, words, x, lane });
    x += width + GAP * larger;
  }
  return { inside, under, lanes: under.length > 0 ? lane + 1 : 0 };
}
