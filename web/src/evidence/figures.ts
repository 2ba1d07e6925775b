// Numbers of the tables, written as the page's language does.

import { text } from '../text/index.svelte';

/** With as many figures as a reader can use. */
export function figure(value: number): string {
  return value.toLocaleString(text().calendar.locale, Math.abs(value) >= 1000 ? { maximumFractionDigits: 0 } : { maximumSignificantDigits: 4 });
}

/** With every figure that it was given with. */
export function whole(value: number): string {
  return value.toLocaleString(text().calendar.locale, { maximumSignificantDigits: 17, useGrouping: false });
}
