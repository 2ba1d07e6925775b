/**
 * What a visit on a day should find, in the units of the sheet.
 */
import type { BandsView } from '../crowd/bands';
import { counts, spreadOver } from '../hive/cells';
import { type CutBox, cut } from '../hive/cut';
import type { SeasonView } from '../season';
import type { FrameCells, HiveCells } from '../types';
import type { Counted } from './sheet';
import { broodIn, byShares, parted } from './shares';

export interface NineInTen {
  low: number;
  high: number;
}

export interface Expected {
  /** Each content of a frame as high as its share of it. */
  boxes: CutBox[];
  /** Frames of each box. */
  frames: Record<Counted, number[]>;
  /** On how many frames of each box its brood lies, as the story says it; 0: on no more than it would fill. */
  broodOn: number[];
  /** And that of the whole hive. */
  broodOnAll: number;
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

/** Frames, or kg, that read alike on a sheet. */
const READ_ALIKE = 0.25;

/** The range of a box: its share of the hive's. */
export function likelyIn({ frames, likely }: Expected, what: Counted, b: number): NineInTen | null {
  const range = likely[what];
  const total = frames[what].reduce((all, one) => all + one, 0);
  const share = (frames[what][b] ?? 0) / total;
  return range && total > 0 ? { low: range.low * share, high: range.high * share } : null;
}

function drawnCells({ contents }: FrameCells): number {
  const { foundation, drawing } = counts(contents);
  return contents.length - foundation - drawing;
}

/** `bands` are of the same plan; null: they have not come yet. */
export function expectedOn(plan: SeasonView, bands: BandsView | null, cells: HiveCells, day: number): Expected {
  const at = (name: string) => plan.at(name, day);
  const boxes = cut(cells, at('frames_of_bees'), plan.meanC(day));
  const bees = boxes.map(({ frames }) => frames.reduce((sum, frame) => sum + frame.bees, 0));
  const broodOf = broodIn(cells, at('frames_of_brood'));
  const brood = boxes.map(({ frames }) => frames.reduce((sum, { index }) => sum + (broodOf[index] ?? 0), 0));
  const index = day - plan.first;
  /** A range that leaves its own number out is of colonies that differ from the plan: with mites where it has none, say. The story says whose it is. */
  const nineInTen = (measure: string, own: number, factor = 1): NineInTen | undefined => {
    const [low, high] = [bands?.at(measure, 5, day), bands?.at(measure, 95, day)];
    if (low == null || high == null || own < low * factor - READ_ALIKE || own > high * factor + READ_ALIKE) return undefined;
    return { low: low * factor, high: high * factor };
  };
  return {
    boxes: byShares(boxes, cells, at('frames_of_brood')),
    frames: {
      bees: parted(at('frames_of_bees'), bees),
      brood,
      drawn: parted(at('drawn_frames'), boxes.map(({ frames }) => frames.reduce((sum, frame) => sum + drawnCells(frame.cells), 0))),
    },
    broodOn: boxes.map(({ frames }, b) => spreadOver(frames.map((frame) => frame.cells), brood[b] ?? 0)),
    broodOnAll: spreadOver(cells.frames, at('frames_of_brood')),
    storesKg: at('honey_kg') + at('unripe_kg'),
    likely: {
      bees: nineInTen('bees', at('frames_of_bees'), at('frames_of_bees') / Math.max(at('adult_bees'), 1)),
      brood: nineInTen('brood_frames', at('frames_of_brood')),
      drawn: nineInTen('drawn_frames', at('drawn_frames')),
      stores: nineInTen('stores_kg', at('honey_kg') + at('unripe_kg')),
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
