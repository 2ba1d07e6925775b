/**
 * A line that is being drawn, point by point: what is skipped is filled in on the way to the point that was set.
 */

/** `null` where nothing was drawn yet. */
export type Line = readonly (number | null)[];

export const emptyLine = (points: number): Line => Array.from({ length: points }, () => null);

/** Sets the point `index`; points before it that are still empty come to lie on the way to it from the last one, or from `start`. */
export function withPoint(line: Line, index: number, value: number, start: number): Line {
  const next = [...line];
  next[index] = value;
  let before = index - 1;
  while (before >= 0 && next[before] === null) before -= 1;
  const from = before >= 0 ? (next[before] as number) : start;
  for (let i = before + 1; i < index; i += 1) next[i] = from + ((value - from) * (i - before)) / (index - before);
  return next;
}

/** A drag from one point to another: all between lie on the way. */
export function dragged(line: Line, from: { index: number; value: number }, to: { index: number; value: number }, start: number): Line {
  let next = line;
  const steps = Math.abs(to.index - from.index);
  const way = Math.sign(to.index - from.index);
  for (let i = 1; i < steps; i += 1) {
    next = withPoint(next, from.index + way * i, from.value + ((to.value - from.value) * i) / steps, start);
  }
  return withPoint(next, to.index, to.value, start);
}

/** The value that a point has or, while it is empty, that its neighbour before has. */
export function valueAt(line: Line, index: number, start: number): number {
  for (let i = index; i >= 0; i -= 1) {
    const value = line[i];
    if (value != null) return value;
  }
  return start;
}

export function whole(line: Line): line is readonly number[] {
  return line.every((value) => value !== null);
}

/** Rounded to steps, within the axis. */
export function settled(value: number, step: number, top: number): number {
  const rounded = Math.round(value / step) * step;
  return Number(Math.min(Math.max(rounded, 0), top).toFixed(6));
}
