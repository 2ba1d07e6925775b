// Numbers of the tables, written as the page's language does.

import { text } from '../text/index.svelte';

/** With as many figures as a reader can use. */
export function figure(value: number): string {
  return value.toLocaleString(text().calendar.locale, Math.abs(value) >= 1000 ? { maximumFractionDigits: 0 } : { maximumSignificantDigits: 3 });
}

/** With every figure that it was given with. */
export function whole(value: number): string {
  return value.toLocaleString(text().calendar.locale, { maximumSignificantDigits: 17, useGrouping: false });
}

/** A check's figures with their unit: shares as so many of a hundred. */
export function inUnit(value: number, { unit, low, high }: { unit: string; low: number | null; high: number | null }): string {
  if (unit !== '-') return figure(value);
  const isShare = (low ?? 0) >= 0 && (high ?? 1) <= 1 && value >= 0 && value <= 1;
  return isShare ? text().evidence.percent((100 * value).toLocaleString(text().calendar.locale, { maximumSignificantDigits: 3 })) : figure(value);
}
