/**
 * Moves in words: what, when, how often.
 */
import { dayNumber, shortDate } from '../calendar';
import type { Move, When } from '../scenario';
import { type Quantity, figure, type UnitSystem, withUnit } from '../units';
import { actionOf } from './actions';

/** The conditions that can be chosen, in the order in which they are offered. */
export const CONDITIONS = [
  { name: 'frames_drawn_at_least', words: 'so many frames are drawn', unit: 'frames', usual: 8, step: 0.5, reach: 20 },
  { name: 'bees_at_least', words: 'there are so many bees, or more', unit: 'bees', usual: 15_000, step: 500, reach: 60_000 },
  { name: 'bees_at_most', words: 'there are so many bees, or fewer', unit: 'bees', usual: 8000, step: 500, reach: 60_000 },
  { name: 'brood_frames_at_least', words: 'there is so much brood, or more', unit: 'frames', usual: 6, step: 0.5, reach: 16 },
  { name: 'brood_frames_at_most', words: 'there is so much brood, or less', unit: 'frames', usual: 0, step: 0.5, reach: 16 },
  { name: 'capped_drone_cells_at_least', words: 'so many drone cells are capped', unit: 'cells', usual: 2000, step: 100, reach: 6000 },
  { name: 'honey_kg_at_least', words: 'there is so much honey, or more', quantity: 'stores', usual: 15, step: 1, reach: 60 },
  { name: 'honey_kg_at_most', words: 'there is so much honey, or less', quantity: 'stores', usual: 5, step: 1, reach: 60 },
] as const satisfies readonly {
  name: Exclude<keyof When, 'of_box'>;
  words: string;
  unit?: string;
  quantity?: Quantity;
  usual: number;
  step: number;
  reach: number;
}[];

const date = (iso: string) => {
  const day = dayNumber(iso);
  return Number.isNaN(day) ? iso : shortDate(day);
};

/** `when 8 frames are drawn in box 1`. */
export function sayWhen(when: When, units: UnitSystem): string {
  const count = (value: number) => figure(value, Number.isInteger(value) ? 0 : 1);
  const kg = (value: number) => withUnit(value, 'stores', units);
  const parts: string[] = [];
  const add = (value: number | null | undefined, words: (value: number) => string) => {
    if (value != null) parts.push(words(value));
  };
  add(when.frames_drawn_at_least, (n) => `${count(n)} frames are drawn${when.of_box ? ` in box ${when.of_box}` : ''}`);
  add(when.bees_at_least, (n) => `there are ${count(n)} bees or more`);
  add(when.bees_at_most, (n) => `there are ${count(n)} bees or fewer`);
  add(when.brood_frames_at_least, (n) => `there is brood on ${count(n)} frames or more`);
  add(when.brood_frames_at_most, (n) => (n === 0 ? 'there is no brood' : `there is brood on ${count(n)} frames or fewer`));
  add(when.capped_drone_cells_at_least, (n) => `${count(n)} drone cells are capped`);
  add(when.honey_kg_at_least, (n) => `there is ${kg(n)} of honey or more`);
  add(when.honey_kg_at_most, (n) => `there is ${kg(n)} of honey or less`);
  return `when ${parts.join(' and ')}`;
}

/** `on 3 June`, `from 3 June, when …`, `every 21 days from 3 June until 1 September`. */
export function sayTime(move: Move, units: UnitSystem): string {
  const parts: string[] = [];
  if (move.every_days) parts.push(`every ${move.every_days === 1 ? 'day' : `${move.every_days} days`}`);
  if (move.date) parts.push(`${move.every_days || move.when ? 'from' : 'on'} ${date(move.date)}`);
  if (move.when) parts.push(sayWhen(move.when, units));
  if (move.until) parts.push(`until ${date(move.until)}`);
  return parts.join(', ').replace(/^(every [^,]*), from/, '$1 from');
}

/** `drone frame in`. */
export function sayMove(move: Move): string {
  return actionOf(move)?.say(move) ?? 'nothing to do';
}
