/**
 * What the beekeeper does, as pins on the axis.
 */
import { dayNumber } from '../calendar';
import { startKind } from '../plan';
import type { Scenario } from '../scenario';

export interface Pin {
  day: number;
  text: string;
}

export interface FeedSpan {
  from: number;
  to: number;
}

const START = { package: 'hived', swarm: 'swarm hived', nuc: 'nuc in', established: 'start' } as const;

export function pinsOf(scenario: Scenario): { pins: Pin[]; feeds: FeedSpan[] } {
  const pins: Pin[] = [{ day: dayNumber(scenario.start.date), text: START[startKind(scenario)] }];
  const feeds: FeedSpan[] = [];
  for (const feed of scenario.feed ?? []) {
    const [from, to] = [dayNumber(feed.from), dayNumber(feed.to)];
    feeds.push({ from, to });
    const what = feed.kind === 'patty' ? 'patty' : `${feed.kind} feed`;
    pins.push({ day: from, text: `${what} on` }, { day: to, text: `${what} off` });
  }
  for (const move of scenario.move ?? []) {
    // A move with a condition has no day of its own.
    if (!move.date || move.when) continue;
    const day = dayNumber(move.date);
    if (move.add_box) pins.push({ day, text: `${move.add_box.size === 'medium' ? 'medium' : 'deep'} box on` });
    if (move.take_honey_leaving_kg != null) pins.push({ day, text: 'honey off' });
  }
  return { pins: merged(pins), feeds };
}

/** One pin for each day. */
function merged(pins: Pin[]): Pin[] {
  const byDay = new Map<number, string>();
  for (const { day, text } of pins) {
    const before = byDay.get(day);
    byDay.set(day, before ? `${before}, ${text}` : text);
  }
  return [...byDay].map(([day, text]) => ({ day, text })).sort((a, b) => a.day - b.day);
}
