/** What stands in the rows of the strip for one window of days, and how much room each row takes for it. */
import { dayNumber } from '../calendar';
import type { DayScale } from '../scales';
import type { Scenario } from '../scenario';
import type { SeasonView } from '../season';
import { text } from '../text/index.svelte';
import type { Difference } from '../trials/difference';
import { type BrakeNames, brakeNames, stretchesOf } from './brakes';
import { besideDays, bloomPlaces, type Placed, type PlacedBloom } from './labels';
import { type Optional, type StripLayout, stripLayout } from './layout';
import { byDay, type FeedSpan, type PinDay, pinsOf } from './pins';

/** What is drawn. */
export interface Shown {
  plan: SeasonView;
  twin: SeasonView | null;
  /** The scenario that the plan's season came of. */
  scenario: Scenario;
  difference: Difference | null;
}

/** What it is drawn on: the width, the window's height, px; how much larger than usual the type is. */
export interface Sheet {
  width: number;
  windowHeight: number;
  larger: number;
  onPaper: boolean;
}

/** Something that a beekeeper would write down. */
export type Note = Placed & { day: number; text: string };

export interface Arranged {
  bloom: PlacedBloom[];
  brakes: BrakeNames;
  moves: (PinDay & Placed)[];
  feeds: FeedSpan[];
  seen: Note[];
  /** The rows that this season does without. */
  without: Optional[];
  layout: StripLayout;
}

/** The height of a window on which the rows have no more than they need, px. */
const LEAST_WINDOW = 800;
/** How far the rows may grow on paper, where the page need not hold a long plan too. */
const PAPER_SPARE = 40;
/** By how much less they have under a long plan. */
const PAPER_TIGHT = -70;
const LONG_PLAN = 12;

/** The sheet before it is known what stands on it: how wide the rows are, and how large the type. */
export function blank({ width, larger }: Pick<Sheet, 'width' | 'larger'>): StripLayout {
  return stripLayout(width, { bloom: 1, brake: 0, moves: 1, seen: 1 }, [], 0, larger);
}

/** `twinName`: what the other season is called. */
export function arrange(shown: Shown, scale: DayScale, sheet: Sheet, twinName = ''): Arranged {
  const { plan, twin, scenario, difference } = shown;
  const { label, note, figure, larger, narrow, right } = blank(sheet);
  const bloom = bloomPlaces(plan.outcome.bloom, scale, { note, right });
  const { pins, feeds } = pinsOf(scenario, plan.outcome.events);
  const moves = besideDays(byDay(pins), scale, label, 6, 3);
  const seen = besideDays(notesOf(plan, scale), scale, note, 8, narrow ? 3 : 2);
  const brakes = brakeNames(stretchesOf(plan, scale), twin ? stretchesOf(twin, scale) : [], scale, { label, figure, larger }, twin && narrow ? text().strip.twinThin(twinName) : '');
  // The printed page has a legend of its own.
  if (sheet.onPaper) [brakes.under, brakes.lanes] = [[], 0];
  const without = withoutRows(shown, seen);
  const spare = sheet.onPaper ? (difference && moves.length > LONG_PLAN ? PAPER_TIGHT : PAPER_SPARE) : Math.max(0, sheet.windowHeight - LEAST_WINDOW);
  const layout = stripLayout(sheet.width, { bloom: lanesOf(bloom), brake: brakes.lanes, moves: lanesOf(moves), seen: lanesOf(seen) }, without, spare, sheet.larger);
  return { bloom, brakes, moves, feeds, seen, without, layout };
}

const lanesOf = (labels: readonly { lane: number | null }[]): number => Math.max(0, ...labels.map(({ lane }) => lane ?? 0)) + 1;

/** What a beekeeper would write down; moves have a row of their own. */
function notesOf(plan: SeasonView, scale: DayScale): { day: number; text: string }[] {
  return plan.outcome.events
    .filter(({ kind }) => !['move', 'refused', 'start'].includes(kind))
    .map((event) => ({ day: dayNumber(event.date), text: event.text }))
    .filter(({ day }) => day >= scale.first && day < scale.first + scale.days);
}

function withoutRows({ plan, twin, difference }: Shown, seen: readonly Note[]): Optional[] {
  const out: Optional[] = [];
  if (!difference) out.push('difference');
  if (!plan.hasQueenNews && !twin?.hasQueenNews) out.push('queen');
  if (!plan.hasMites && !twin?.hasMites) out.push('mites');
  if (seen.length === 0) out.push('seen');
  return out;
}
