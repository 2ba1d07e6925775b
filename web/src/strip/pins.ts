/**
 * What the beekeeper does, as pins on the axis.
 */
import { dayNumber } from '../calendar';
import type { PinTarget } from '../moves/edit';
import { sayMove } from '../moves/words';
import { startKind } from '../plan';
import { type DayScale, dayX } from '../scales';
import type { Scenario } from '../scenario';
import type { StripLayout } from './layout';
import type { SeasonEvent } from '../types';
import { text } from '../text/index.svelte';

export interface Pin {
  day: number;
  text: string;
  /** What is moved when the pin is dragged; none: it stays where it is. */
  target: PinTarget | null;
  /** Why it could not be done. */
  refused: string | null;
  /** It came about by a condition or a repeat. */
  followed: boolean;
}

export interface FeedSpan {
  from: number;
  to: number;
}

/** Pins in order of date; `events` are those of the season that came of the scenario. */
export function pinsOf(scenario: Scenario, events: readonly SeasonEvent[] = []): { pins: Pin[]; feeds: FeedSpan[] } {
  const words = text().strip;
  const fixed = { target: null, refused: null, followed: false };
  const pins: Pin[] = [{ ...fixed, day: dayNumber(scenario.start.date), text: words.start[startKind(scenario)] }];
  const feeds: FeedSpan[] = [];
  for (const [index, feed] of (scenario.feed ?? []).entries()) {
    const [from, to] = [dayNumber(feed.from), dayNumber(feed.to)];
    feeds.push({ from, to });
    const [on, off] = feed.kind === 'patty' ? [words.pattyOn, words.pattyOff] : [words.feedOn(feed.kind), words.feedOff(feed.kind)];
    pins.push(
      { ...fixed, day: from, text: on, target: { kind: 'feed', index, end: 'from' } },
      { ...fixed, day: to, text: off, target: { kind: 'feed', index, end: 'to' } },
    );
  }
  const happened = new Map<number, SeasonEvent[]>();
  for (const event of events) {
    if (event.move != null) happened.set(event.move, [...(happened.get(event.move) ?? []), event]);
  }
  for (const [index, move] of (scenario.move ?? []).entries()) {
    const said = sayMove(move);
    // A move with a condition has no day of its own.
    const own = move.date && !move.when ? dayNumber(move.date) : null;
    if (own !== null) pins.push({ ...fixed, day: own, text: said, target: { kind: 'move', index } });
    for (const { date, kind, text: why } of happened.get(index) ?? []) {
      const day = dayNumber(date);
      const refused = kind === 'refused' ? why : null;
      if (day !== own) pins.push({ day, text: said, target: null, refused, followed: true });
      else if (refused) pins.push({ ...(pins.pop() as Pin), refused });
    }
  }
  return { pins: pins.toSorted((a, b) => a.day - b.day), feeds };
}

/** The pins of one day. */
export interface PinDay {
  day: number;
  text: string;
  pins: Pin[];
}

/** Pins of the same day together, with one label. */
export function byDay(pins: readonly Pin[]): PinDay[] {
  const days = new Map<number, PinDay>();
  for (const pin of pins) {
    const said = pin.refused ? text().strip.refusedPin(pin.text) : pin.text;
    const before = days.get(pin.day);
    days.set(pin.day, {
      day: pin.day,
      text: before ? `${before.text}, ${said}` : said,
      pins: [...(before?.pins ?? []), pin],
    });
  }
  return [...days.values()];
}

/** How high the pins stand: beside the row's name, clear of what stands above it. */
export function pinsAt({ rows, narrow, larger }: StripLayout): number {
  return rows.moves.top + (narrow ? 6 : 8 * larger);
}

/** Where the pin with this number stands among those of its day: side by side. */
export function pinX(scale: DayScale, { day, pins }: PinDay, i: number): number {
  return dayX(scale, day) + (i - (pins.length - 1) / 2) * 12;
}
