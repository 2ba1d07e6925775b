/** The hives of a list in order, and what is due in each. */
import { byDay, pinsOf } from '../strip/pins';
import type { SeasonView } from '../season';
import type { Hive } from './hive';

export const ORDERS = ['added', 'name', 'bees', 'due'] as const;
export type Order = (typeof ORDERS)[number];

/** A hive on the day that it is looked at. */
export interface Entry {
  hive: Hive;
  name: string;
  /** Its season, and the day in it; `null` while there is none. */
  at: { view: SeasonView; day: number } | null;
}

/** What the plan has next, on the day or after it. */
export function dueIn({ hive, at }: Entry): { day: number; text: string } | null {
  if (!at) return null;
  return byDay(pinsOf(hive.scenario, at.view.outcome.events).pins).find(({ day }) => day >= at.day) ?? null;
}

/** The first day on which no bee is left; `null` while there are some. */
export function deadSince(view: SeasonView, day: number): number | null {
  if (view.at('adult_bees', day) >= 1) return null;
  let first = day;
  while (first > view.first && view.at('adult_bees', first - 1) < 1) first -= 1;
  return first;
}

/** In order: by name, the most bees first, or what is due soonest first; those of which it is not known come last. */
export function inOrder(entries: readonly Entry[], order: Order): Entry[] {
  if (order === 'name') return entries.toSorted((one, other) => one.name.localeCompare(other.name, undefined, { numeric: true }));
  if (order === 'added') return [...entries];
  const rank = (entry: Entry) => {
    if (!entry.at) return Number.POSITIVE_INFINITY;
    const { view, day } = entry.at;
    return order === 'bees' ? -view.at('adult_bees', day) : (dueIn(entry)?.day ?? Number.POSITIVE_INFINITY) - day;
  };
  const ranked = entries.map((entry) => ({ entry, rank: rank(entry) }));
  return ranked.toSorted((one, other) => (one.rank < other.rank ? -1 : one.rank > other.rank ? 1 : 0)).map(({ entry }) => entry);
}

/** How many hives are lost, and the fewest, the middle and the most bees of those that live; `null` for fewer than three of these. */
export function spread(entries: readonly Entry[]): { lost: number; least: number; middle: number; most: number } | null {
  const all = entries.flatMap(({ at }) => (at ? [at.view.at('adult_bees', at.day)] : []));
  const bees = all.filter((count) => count >= 1).toSorted((a, b) => a - b);
  const half = bees.length / 2;
  if (bees.length < 3) return null;
  const [a, b] = [bees[Math.ceil(half) - 1] ?? 0, bees[Math.floor(half)] ?? 0];
  return { lost: all.length - bees.length, least: bees[0] ?? 0, middle: (a + b) / 2, most: bees.at(-1) ?? 0 };
}
