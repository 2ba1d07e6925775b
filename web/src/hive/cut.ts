/**
 * The hive cut through the middle, laid out from the day's totals: bees keep their brood in a ball in the middle,
 * pollen around it, honey above and outside. The model gives the totals; their place is drawn by this rule.
 */
import { dayNumber } from '../calendar';
import type { Comb, HiveBox, Scenario } from '../scenario';

/** What lies in a stretch of comb. */
export type Content = 'honey' | 'nectar' | 'pollen' | 'egg' | 'larva' | 'brood' | 'empty';

/** Contents as shares of one frame's full comb. */
export type Shares = Record<Content, number>;

export interface CutFrame {
  kind: Comb;
  /** 0 foundation to 1 drawn to the corners. */
  drawn: number;
  shares: Shares;
  /** How thick the bees stand in the seam to its right, 0 to 1. */
  bees: number;
}

export interface CutBox {
  size: 'deep' | 'medium';
  frames: CutFrame[];
}

/** The totals of one day. */
export interface Totals {
  drawnFrames: number;
  framesOfBees: number;
  cellsPerFrame: number;
  eggs: number;
  larvae: number;
  capped: number;
  honeyKg: number;
  unripeKg: number;
  pollenKg: number;
}

/** About what a cell holds when full, kg: these only size the drawing. */
const HONEY_CELL = 0.0004;
const UNRIPE_CELL = 0.00029;
const POLLEN_CELL = 0.00023;
/** Frames that are drawn side by side. */
const AT_A_TIME = 3;

/** The boxes that stand on a day, from the bottom up. */
export function boxesOn(scenario: Scenario, day: number): HiveBox[] {
  const given = (scenario.move ?? [])
    .flatMap(({ date, add_box }) => (date && add_box ? [{ on: dayNumber(date), add_box }] : []))
    .filter(({ on }) => on <= day)
    .sort((a, b) => a.on - b.on)
    .map(({ add_box }) => add_box);
  return [...scenario.hive.box, ...given];
}

interface Slot {
  box: number;
  kind: Comb;
  drawn: number;
  /** Distance from the heart of the nest, in frames; a box up or down counts as much as three frames. */
  away: number;
}

/** Lays the day's totals out over the boxes. */
export function cut(boxes: readonly HiveBox[], totals: Totals): CutBox[] {
  const slots = slotsOf(boxes);
  draw(slots, totals.drawnFrames);

  const perFrame = Math.max(totals.cellsPerFrame, 1);
  const broodFrames = (totals.eggs + totals.larvae + totals.capped) / perFrame;
  const brood = pour(
    broodFrames,
    slots.map(({ drawn }) => drawn * 0.86),
    slots.map(({ away }) => (away < 4.4 ? Math.exp(-((away / 2.6) ** 2)) : 0)),
  );
  const left = slots.map(({ drawn }, i) => drawn - (brood[i] ?? 0));
  const take = (frames: number, weight: (slot: Slot, i: number) => number): number[] => {
    const taken = pour(frames, left, slots.map(weight));
    taken.forEach((share, i) => {
      left[i] = (left[i] ?? 0) - share;
    });
    return taken;
  };
  const pollen = take(totals.pollenKg / POLLEN_CELL / perFrame, ({ away }) => Math.exp(-(((away - 2.2) / 1.3) ** 2)) + 0.02);
  const honey = take(totals.honeyKg / HONEY_CELL / perFrame, ({ away }) => 0.25 + away ** 1.5);
  const nectar = take(totals.unripeKg / UNRIPE_CELL / perFrame, ({ away }) => 0.4 + away);
  const stages = stagesOf(brood, slots, [totals.eggs, totals.larvae, totals.capped].map((cells) => cells / perFrame));
  const bees = pour(
    totals.framesOfBees,
    slots.map(() => 1),
    slots.map(({ away, drawn }) => (0.15 + drawn) * Math.exp(-((away / 4) ** 2))),
  );

  return boxes.map((box, b) => ({
    size: box.size ?? 'deep',
    frames: slots.flatMap((slot, i) =>
      slot.box === b
        ? [
            {
              kind: slot.kind,
              drawn: slot.drawn,
              bees: bees[i] ?? 0,
              shares: {
                honey: honey[i] ?? 0,
                nectar: nectar[i] ?? 0,
                pollen: pollen[i] ?? 0,
                egg: stages[i]?.[0] ?? 0,
                larva: stages[i]?.[1] ?? 0,
                brood: stages[i]?.[2] ?? 0,
                empty: Math.max(0, left[i] ?? 0),
              },
            },
          ]
        : [],
    ),
  }));
}

function slotsOf(boxes: readonly HiveBox[]): Slot[] {
  return boxes.flatMap((box, b) => {
    const count = box.frames ?? 10;
    return Array.from({ length: count }, (_, position) => {
      const kind = box.contents?.[position] ?? box.comb ?? 'foundation';
      const side = position + 0.5 - count / 2;
      return { box: b, kind, drawn: kind.startsWith('drawn') ? 1 : 0, away: Math.hypot(side, b * 3) };
    });
  });
}

/** Spreads what was drawn over the frames not given drawn: lower boxes first, from the middle out. */
function draw(slots: Slot[], drawnFrames: number): void {
  let left = drawnFrames - slots.reduce((sum, { drawn }) => sum + drawn, 0);
  const order = slots.filter(({ drawn }) => drawn < 1).sort((a, b) => a.box - b.box || a.away - b.away);
  for (let front = order.slice(0, AT_A_TIME); left > 1e-6 && front.length > 0; ) {
    const room = Math.min(...front.map(({ drawn }) => 1 - drawn));
    const share = Math.min(room, left / front.length);
    for (const slot of front) slot.drawn += share;
    left -= share * front.length;
    front = order.filter(({ drawn }) => drawn < 1 - 1e-9).slice(0, AT_A_TIME);
  }
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

/** Eggs, larvae and capped brood of each frame: the oldest in the heart of the nest, eggs at its rim. */
function stagesOf(brood: readonly number[], slots: readonly Slot[], totals: readonly number[]): number[][] {
  const leaning = [0.35, 0.1, -0.3];
  let shares = brood.map((amount, i) => leaning.map((lean) => amount * Math.exp(lean * (slots[i]?.away ?? 0))));
  for (let round = 0; round < 12; round += 1) {
    const sums = totals.map((_, stage) => shares.reduce((sum, frame) => sum + (frame[stage] ?? 0), 0));
    shares = shares.map((frame) => frame.map((value, stage) => (sums[stage] ? (value * (totals[stage] ?? 0)) / (sums[stage] ?? 1) : 0)));
    shares = shares.map((frame, i) => {
      const sum = frame.reduce((total, value) => total + value, 0);
      return sum > 0 ? frame.map((value) => (value * (brood[i] ?? 0)) / sum) : frame;
    });
  }
  return shares;
}
