/**
 * From days and amounts to places on the page.
 */

/** A window of days laid over a width: day `first` sits half a step in from the left edge. */
export interface DayScale {
  first: number;
  days: number;
  left: number;
  width: number;
}

/** The middle of a day. */
export function dayX(scale: DayScale, day: number): number {
  return scale.left + ((day - scale.first + 0.5) / scale.days) * scale.width;
}

/** The width of one day. */
export function dayWidth(scale: DayScale): number {
  return scale.width / scale.days;
}

/** The day under a place, kept inside the window. */
export function dayAt(scale: DayScale, x: number): number {
  const day = Math.floor(((x - scale.left) / scale.width) * scale.days);
  return scale.first + Math.min(Math.max(day, 0), scale.days - 1);
}

/** What is drawn on a day, from the upper to the lower edge. */
export interface Drawn {
  x: number;
  high: number;
  low: number;
}

/** At which end of a row a figure stands clear of what is drawn there; at its right end where that is neither. */
export function clearEnd(drawn: readonly Drawn[], figure: { top: number; bottom: number; width: number }, left: number, right: number): 'start' | 'end' {
  const clear = (from: number, to: number) => drawn.every(({ x, high, low }) => x < from || x > to || figure.bottom < high || figure.top > low);
  return clear(right - figure.width, right) || !clear(left, left + figure.width) ? 'end' : 'start';
}

/** A round step that divides 0 to `top` into about `parts`. */
export function niceStep(top: number, parts: number): number {
  if (!(top > 0)) return 1;
  const raw = top / parts;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].find((s) => s * power >= raw * 0.999) ?? 10;
  return step * power;
}

/** 0, step, 2·step … up to and including the first that reaches `top`. */
export function ticks(top: number, parts: number): number[] {
  const step = niceStep(top, parts);
  const count = Math.max(1, Math.ceil((top / step) * 0.999_999));
  return Array.from({ length: count + 1 }, (_, i) => Number((i * step).toPrecision(12)));
}

/** The ticks up to the `top` of an axis on which most is `most`: finer ones where only 0 would lie within it. */
export function ticksWithin(most: number, top: number, parts: number): number[] {
  const within = ticks(most, parts).filter((tick) => tick <= top);
  return within.length > 1 || parts > 9 ? within : ticksWithin(most, top, parts + 1);
}

/** A height in a row: 0 at `bottom`, `top` of the scale `height` above it. */
export function rise(value: number, top: number, bottom: number, height: number): number {
  return bottom - (top > 0 ? value / top : 0) * height;
}

/** A run of equal entries: from `start` up to but not including `end`. */
export interface Run {
  value: number;
  start: number;
  end: number;
}

/** Joins neighbours that are equal. */
export function runs(values: ArrayLike<number>, from = 0, to = values.length): Run[] {
  const out: Run[] = [];
  for (let i = from; i < to; i += 1) {
    const value = values[i] as number;
    const last = out.at(-1);
    if (last && last.value === value) last.end = i + 1;
    else out.push({ value, start: i, end: i + 1 });
  }
  return out;
}

/** A place on the page, as fine as a path needs it; `toFixed` takes several times as long, and a change of a slider draws thousands. */
export const tenths = (value: number): number => Math.round(value * 10) / 10;

/** An SVG path through points, one decimal each. */
export function linePath(points: readonly (readonly [number, number])[]): string {
  let path = '';
  for (const [x, y] of points) path += `${path ? 'L' : 'M'}${tenths(x)} ${tenths(y)}`;
  return path;
}

/** A closed area between an upper and a lower line over the same days. */
export function areaPath(
  upper: readonly (readonly [number, number])[],
  lower: readonly (readonly [number, number])[],
): string {
  return upper.length === 0 ? '' : `${linePath(upper)}${linePath(lower.toReversed()).replace('M', 'L')}Z`;
}

/** About how wide a label is, in pixels: close enough to decide whether it fits. */
export function labelWidth(text: string, size: number): number {
  return text.length * size * 0.54;
}

export interface Label {
  x: number;
  width: number;
}

/** Puts labels into the fewest lanes in which none touches its neighbour; `null` where there are not enough. */
export function lanes(labels: readonly Label[], count: number, gap: number): (number | null)[] {
  const ends = new Array<number>(count).fill(Number.NEGATIVE_INFINITY);
  return labels.map(({ x, width }) => {
    const lane = ends.findIndex((end) => x >= end + gap);
    if (lane < 0) return null;
    ends[lane] = x + width;
    return lane;
  });
}
