/**
 * Moves in words: what, when, how often.
 */
import { dayNumber, shortDate } from '../calendar';
import type { Move, When } from '../scenario';
import type { Catalogue } from '../text/en';
import { text } from '../text/index.svelte';
import { type Quantity, figure, type UnitSystem, withUnit } from '../units';
import { actionOf } from './actions';

type ConditionName = Exclude<keyof When, 'of_box'>;

/** The conditions that can be chosen, in the order in which they are offered. */
export const CONDITIONS: readonly {
  name: ConditionName;
  unit?: keyof Catalogue['moves']['unit'];
  quantity?: Quantity;
  usual: number;
  step: number;
  reach: number;
}[] = [
  { name: 'frames_drawn_at_least', unit: 'frames', usual: 8, step: 0.5, reach: 20 },
  { name: 'bees_at_least', unit: 'bees', usual: 15_000, step: 500, reach: 60_000 },
  { name: 'bees_at_most', unit: 'bees', usual: 8000, step: 500, reach: 60_000 },
  { name: 'brood_frames_at_least', unit: 'frames', usual: 6, step: 0.5, reach: 16 },
  { name: 'brood_frames_at_most', unit: 'frames', usual: 0, step: 0.5, reach: 16 },
  { name: 'capped_drone_cells_at_least', unit: 'cells', usual: 2000, step: 100, reach: 6000 },
  { name: 'honey_kg_at_least', quantity: 'stores', usual: 15, step: 1, reach: 60 },
  { name: 'honey_kg_at_most', quantity: 'stores', usual: 5, step: 1, reach: 60 },
];

const date = (iso: string) => {
  const day = dayNumber(iso);
  return Number.isNaN(day) ? iso : shortDate(day);
};

/** `when 8 frames are drawn in box 1`. */
export function sayWhen(when: When, units: UnitSystem): string {
  const words = text().moves.when;
  const said = ({ name, quantity }: (typeof CONDITIONS)[number]): string[] => {
    const value = when[name];
    if (value == null) return [];
    if (name === 'brood_frames_at_most' && value === 0) return [words.no_brood];
    const amount = quantity ? withUnit(value, quantity, units) : figure(value, Number.isInteger(value) ? 0 : 1);
    return [words[name](amount, when.of_box ?? null)];
  };
  return words.all(CONDITIONS.flatMap(said));
}

/** `3 June`, `from 3 June, when …`, `every 21 days from 3 June until 1 September`. */
export function sayTime(move: Move, units: UnitSystem): string {
  const words = text().moves.time;
  const first = move.date ? words[move.every_days || move.when ? 'from' : 'on'](date(move.date)) : '';
  const repeated = move.every_days ? `${words.every(move.every_days)} ${first}`.trim() : first;
  return [repeated, move.when ? sayWhen(move.when, units) : '', move.until ? words.until(date(move.until)) : ''].filter(Boolean).join(', ');
}

/** `drone frame in`. */
export function sayMove(move: Move): string {
  const action = actionOf(move);
  return action ? text().moves.pin[action.name](move) : text().moves.nothing;
}
