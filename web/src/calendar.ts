/**
 * Calendar days without time zones: an ISO date, or the whole days since 1 January 1970.
 */

import { text } from './text/index.svelte';

const DAY_MS = 86_400_000;
/** Whole days since 1 January 1970 of an ISO date; `NaN` where it is not a date of the calendar. */
export function dayNumber(iso: string): number {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(iso)) return Number.NaN;
  const ms = Date.parse(`${iso}T00:00:00Z`);
  // `2026-02-30` is taken for 2 March by some engines.
  return Number.isNaN(ms) || isoDate(ms / DAY_MS) !== iso ? Number.NaN : ms / DAY_MS;
}

/** The ISO date of a day number. */
export function isoDate(day: number): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

/** The date `days` after an ISO date. */
export function plusDays(iso: string, days: number): string {
  return isoDate(dayNumber(iso) + days);
}

export interface DateParts {
  year: number;
  /** 0 for January. */
  month: number;
  date: number;
  /** 0 for Sunday. */
  weekday: number;
}

export function dateParts(day: number): DateParts {
  const d = new Date(day * DAY_MS);
  return { year: d.getUTCFullYear(), month: d.getUTCMonth(), date: d.getUTCDate(), weekday: d.getUTCDay() };
}

/** `Wed 10 June`. */
export function weekdayDate(day: number): string {
  const { weekday, date, month } = dateParts(day);
  const words = text().calendar;
  return words.weekday(words.weekdays[weekday] ?? '', date, words.months[month] ?? '');
}

/** `Wed 10 June`, with its year where that is another than on the day that it is seen from. */
export function weekdayDateFrom(day: number, from: number): string {
  return dateParts(day).year === dateParts(from).year ? weekdayDate(day) : spokenDate(day);
}

/** `10 June`. */
export function shortDate(day: number): string {
  const { date, month } = dateParts(day);
  const words = text().calendar;
  return words.short(date, words.months[month] ?? '');
}

/** `Wednesday 10 June 2026`, for a screen reader. */
export function spokenDate(day: number): string {
  return `${weekdayDate(day)} ${dateParts(day).year}`;
}
