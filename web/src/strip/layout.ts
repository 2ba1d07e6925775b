/**
 * Where each row of the season strip stands.
 */

export type RowName = 'weather' | 'bloom' | 'bees' | 'brood' | 'brake' | 'difference' | 'queen' | 'moves' | 'mites' | 'seen' | 'comb' | 'stores';
/** Rows that a season may do without. */
export type Optional = 'difference' | 'queen' | 'mites' | 'seen';

export interface RowPlace {
  top: number;
  height: number;
}

export interface StripLayout {
  /** Row names stand inside the rows instead of beside them. */
  narrow: boolean;
  left: number;
  right: number;
  axis: number;
  rows: Record<RowName, RowPlace>;
  height: number;
  /** How much larger than usual all is. */
  larger: number;
  /** Heights of one lane of labels. */
  lane: { bloom: number; moves: number };
  /** Sizes of type. */
  label: number;
  note: number;
  figure: number;
}

/** Below this width names stand inside the rows; below the other with larger letters, for each time that they are larger. */
const NARROW = 700;
const NARROW_LETTERS = 500;
const GAP = 6;
const BLOOM_LANE = 15;
const MOVE_LANE = 17;
/** The share of large type's growth that a row of curves takes. */
const CURVES = 0.5;

/** What a phone shows on its first screen, at the most. */
export const FIRST_ON_A_PHONE: readonly RowName[] = ['bees', 'brake', 'moves', 'weather'];
const FIRST_IN_LARGE_TYPE: readonly RowName[] = ['weather', 'bloom', 'bees', 'brake'];

/** The lanes of labels that each of these rows needs. */
export interface Lanes {
  bloom: number;
  /** Names under the ribbon. */
  brake: number;
  moves: number;
  seen: number;
}

/**
 * Where the rows stand, the first ones on the first screen. `without`: rows that this season has no need of;
 * `spare`: pixels of the window's height that the rows may take beyond the least; `scale`: how much
 * larger than usual all is, for large type.
 */
export function stripLayout(width: number, lanes: Lanes, without: readonly Optional[] = [], spare = 0, scale = 1): StripLayout {
  const narrow = width < Math.max(NARROW, NARROW_LETTERS * scale);
  const heights: [RowName, number][] = [
    ['weather', narrow ? 76 : 44],
    ['bloom', Math.max(1, lanes.bloom) * BLOOM_LANE + (narrow ? 18 : 0)],
    ['bees', narrow ? 104 : 54 + Math.max(0, 26 - 65 * (scale - 1)) + Math.min(60, spare * 0.3)],
    ['brood', narrow ? 70 : 41 + Math.min(24, spare * 0.1)],
    ['brake', (narrow ? 36 : 26) + lanes.brake * BLOOM_LANE],
    ['moves', 12 + Math.max(1, lanes.moves) * MOVE_LANE],
    ['difference', narrow ? 84 : 44 + Math.min(24, spare * 0.1)],
    ['queen', narrow ? 40 : 22],
    ['mites', narrow ? 86 : 42],
    ['seen', 10 + Math.max(1, lanes.seen) * BLOOM_LANE + (narrow ? 18 : 0)],
    ['comb', narrow ? 62 : 32],
    ['stores', narrow ? 70 : 46],
  ];
  const axis = Math.round((narrow ? 66 : 30) * scale);
  // Curves need less of it than words do.
  // The difference has three lines of words beside it.
  // Nor do those with a list of their layers beside them, once that is higher than they are.
  const curves: readonly RowName[] = ['weather', 'bees', 'mites', 'comb', ...(scale > 1.4 ? [] : (['brood', 'stores'] as const))];
  const factor = (name: RowName) => (curves.includes(name) ? 1 + (scale - 1) * CURVES : scale);
  const rows = {} as Record<RowName, RowPlace>;
  let top = axis;
  // What is asked first stands on the first screen.
  const order = narrow ? FIRST_ON_A_PHONE : scale > 1 ? FIRST_IN_LARGE_TYPE : [];
  const rank = (name: RowName) => order.indexOf(name) + 1 || order.length + 1;
  heights.sort(([one], [other]) => rank(one) - rank(other));
  for (const [name, height] of heights) {
    const leftOut = without.includes(name as Optional);
    rows[name] = { top, height: leftOut ? 0 : Math.round(height * factor(name)) };
    if (!leftOut) top += rows[name].height + GAP;
  }
  return {
    narrow,
    left: narrow ? 0 : Math.round(126 * scale),
    right: narrow ? 0 : Math.round(80 * scale),
    axis,
    rows,
    height: top,
    larger: scale,
    lane: { bloom: BLOOM_LANE * scale, moves: MOVE_LANE * scale },
    label: (narrow ? 14 : 13.5) * scale,
    note: 13.5 * scale,
    figure: (narrow ? 13 : 12.5) * scale,
  };
}

/** The days that the strip shows at once, unless the whole season is asked for. */
export function windowLength(narrow: boolean): number {
  return narrow ? 84 : 112;
}

/** The window onto a season that starts at `start`; it stands still until the day leaves it. */
export function windowAround(
  day: number,
  season: { first: number; days: number },
  start: number,
  length: number,
  slack = 1.15,
): { first: number; days: number } {
  const { first, days } = season;
  // A few days more do not make it worth hiding them.
  if (days <= length * slack) return { first, days };
  let from = Math.min(Math.max(start, first), first + days - length);
  if (day < from || day >= from + length) from = day - Math.floor(length / 3);
  return { first: Math.min(Math.max(from, first), first + days - length), days: length };
}
