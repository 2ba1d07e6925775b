/** Choosing a day by keyboard: the next day by an arrow, the next week with Shift, the ends by Home and End. */
type Key = Pick<KeyboardEvent, 'key' | 'shiftKey'>;

/** How many days an arrow goes on; `null`: it is another key. */
export function daysBy({ key, shiftKey }: Key): number | null {
  const stride = shiftKey ? 7 : 1;
  return { ArrowLeft: -stride, ArrowDown: -stride, ArrowRight: stride, ArrowUp: stride }[key] ?? null;
}

/** The day that a key leads to, of those from `first` to `last`; `null`: it leads to none. An arrow may lead beyond them. */
export function dayBy(event: Key, day: number, { first, last }: { first: number; last: number }): number | null {
  const by = daysBy(event);
  return by === null ? ({ Home: first, End: last }[event.key] ?? null) : day + by;
}
