/**
 * What a visit on a day should find, in the units of the sheet.
 */
import type { BandsView } from '../crowd/bands';
import { type CutBox, cut } from '../hive/cut';
import { counts } from '../hive/cells';
import type { SeasonView } from '../season';
import type { HiveCells } from '../types';
import type { Counted } from './sheet';

export interface NineInTen {
  low: number;
  high: number;
}

export interface Expected {
  boxes: CutBox[];
  /** Frames of each box. */
  frames: Record<Counted, number[]>;
  /** On how many frames of each box brood stands, be it ever so little. */
  broodOn: number[];
  storesKg: number;
  /** Between which figures of the whole hive nine in ten colonies like it lie; none: not known yet. */
  likely: Partial<Record<Counted | 'stores', NineInTen>>;
  eggs: boolean;
  chargedCells: number;
  cappedCells: number;
  /** Mites on 100 bees, and the two between which 95 of 100 washes of 300 bees lie. */
  wash: { mites: number; low: number; high: number };
  fallADay: number;
}

/** A figure of the whole hive, parted over its boxes as its cells lie. */
function parted(total: number, shares: number[]): number[] {
  const sum = shares.reduce((all, one) => all + one, 0);
  return shares.map((share) => (sum > 0 ? (total * share) / sum : 0));
}

/** The range of a box: its share of the hive's. */
export function likelyIn({ frames, likely }: Expected, what: Counted, b: number): NineInTen | null {
  const range = likely[what];
  const total = frames[what].reduce((all, one) => all + one, 0);
  const share = (frames[what][b] ?? 0) / total;
  return range && total > 0 ? { low: range.low * share, high: range.high * share } : null;
}

const brood = ({ egg, larva, capped }: ReturnType<typeof counts>): number => egg + larva + capped;

/** `bands` are of the same plan; null: they have not come yet. */
export function expectedOn(plan: SeasonView, bands: BandsView | null, cells: HiveCells, day: number): Expected {
  const at = (name: string) => plan.at(name, day);
  const boxes = cut(cells, at('frames_of_bees'));
  const cellsOf = (of: (all: ReturnType<typeof counts>) => number) =>
    boxes.map(({ frames }) => frames.reduce((sum, frame) => sum + of(counts(frame.cells.contents)), 0));
  const bees = boxes.map(({ frames }) => frames.reduce((sum, frame) => sum + frame.bees, 0));
  const index = day - plan.first;
  const nineInTen = (measure: string, factor = 1): NineInTen | undefined => {
    const [low, high] = [bands?.at(measure, 5, day), bands?.at(measure, 95, day)];
    return low == null || high == null ? undefined : { low: low * factor, high: high * factor };
  };
  return {
    boxes,
    frames: {
      bees: parted(at('frames_of_bees'), bees),
      brood: parted(at('frames_of_brood'), cellsOf(brood)),
      drawn: parted(at('drawn_frames'), cellsOf((all) => Object.values(all).reduce((sum, one) => sum + one, 0) - all.foundation - all.drawing)),
    },
    broodOn: boxes.map(({ frames }) => frames.filter(({ cells }) => brood(counts(cells.contents)) > 0).length),
    storesKg: at('honey_kg') + at('unripe_kg'),
    likely: {
      bees: nineInTen('bees', at('frames_of_bees') / Math.max(at('adult_bees'), 1)),
      brood: nineInTen('brood_frames'),
      drawn: nineInTen('drawn_frames'),
      stores: nineInTen('stores_kg'),
    },
    eggs: at('eggs') >= 60,
    chargedCells: at('charged_cells'),
    cappedCells: at('capped_queen_cells'),
    wash: { mites: at('mites_per_100_bees'), low: plan.outcome.washLow[index] ?? Number.NaN, high: plan.outcome.washHigh[index] ?? Number.NaN },
    fallADay: at('mite_fall'),
  };
}

/** Litres of syrup taken between two days, of sugar in kg; a litre of 1:1 holds 0.61 kg, of 2:1 0.89 kg. */
export function sugarTaken(plan: SeasonView, since: number, day: number): number {
  let sum = 0;
  for (let one = Math.max(since, plan.first); one < day; one += 1) sum += plan.at('syrup_kg', one) || 0;
  return sum;
}
