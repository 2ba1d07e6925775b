/** The list of what to do next, laid out by date. */
import { dateParts, dayNumber, shortDate, weekdayDate } from '../calendar';
import { text } from '../text/index.svelte';
import type { Told, WhatNext } from '../types';
import type { UnitSystem } from '../units';

export interface Work extends Told {
  planned: boolean;
  visit: boolean;
  /** A visit found it; it does not rest on colonies. */
  found: boolean;
}

export interface Dated {
  /** Number of its first day. */
  first: number;
  when: string;
  /** Begins after the weeks for which visits are listed. */
  later: boolean;
  works: Work[];
}

/** What is to be done on the same days stands together; a caution, and how a feed of the plan is mixed, is said once, where it is met first. */
export function byDate({ items, from, to, until }: WhatNext, units: UnitSystem, between: (first: string, last: string) => string): Dated[] {
  const years = from.slice(0, 4) !== until.slice(0, 4);
  const dates: Dated[] = [];
  const said = new Set<string>();
  const once = (words: string) => !said.has(words) && Boolean(said.add(words));
  for (const item of items) {
    const [first, last] = [dayNumber(item.from), dayNumber(item.to)];
    const year = (day: number) => (years ? ` ${dateParts(day).year}` : '');
    const sameMonth = item.from.slice(0, 7) === item.to.slice(0, 7);
    const start = sameMonth ? text().calendar.dayAlone(dateParts(first).date) : shortDate(first) + year(first);
    const when = first === last ? weekdayDate(first) + year(first) : between(start, shortDate(last) + year(last));
    const { planned, visit, found } = item;
    const told = item.told[units];
    const work = {
      ...told,
      planned,
      visit,
      found,
      details: planned ? told.details.filter(once) : told.details,
      cautions: told.cautions.filter(once),
    };
    const before = dates.at(-1);
    if (before?.when === when) before.works.push(work);
    else dates.push({ first, when, later: item.from > to, works: [work] });
  }
  return dates;
}

/** What begins up to a day, that day too; `null`: all of it. */
export function upTo(dates: readonly Dated[], last: number | null): Dated[] {
  return dates.filter(({ first }) => last === null || first <= last);
}
