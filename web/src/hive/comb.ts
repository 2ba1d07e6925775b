/**
 * One comb in the cut, as paths: its rows of cells on each side of the midrib.
 */
import type { CutRow, Kind } from './cells';

/** A small, even noise from 0 to 1 that is the same every time. */
export function noise(seed: number): number {
  let x = (seed * 2_654_435_761) >>> 0;
  x = Math.imul(x ^ (x >>> 15), 2_246_822_519) >>> 0;
  x = Math.imul(x ^ (x >>> 13), 3_266_489_917) >>> 0;
  return ((x ^ (x >>> 16)) >>> 0) / 4_294_967_296;
}

export interface Drawing {
  /** Filled areas by content. */
  areas: Partial<Record<Kind, string>>;
  /** Marks by content: short strokes with round ends. */
  marks: Partial<Record<Kind, string>>;
  /** Hairlines between the rows. */
  hairlines: string;
  outline: string;
}

const f = (value: number) => value.toFixed(1);

/** The paths of a comb whose midrib is at `x`, between `top` and `bottom`, `half` deep on each side. */
export function drawComb([left, right]: readonly [CutRow[], CutRow[]], x: number, top: number, bottom: number, half: number): Drawing {
  const step = (bottom - top) / left.length;
  const drawing: Drawing = { areas: {}, marks: {}, hairlines: '', outline: '' };
  const edge: Record<'left' | 'right', string[]> = { left: [], right: [] };
  left.forEach((leftRow, row) => {
    const y = top + row * step;
    const depths: number[] = [];
    for (const [side, { drawn, kind }] of [
      [-1, leftRow],
      [1, right[row] ?? leftRow],
    ] as const) {
      const depth = drawn * half;
      depths.push(depth);
      edge[side < 0 ? 'left' : 'right'].push(`${f(x + side * depth)} ${f(y)}`, `${f(x + side * depth)} ${f(y + step)}`);
      if (depth < 0.4) continue;
      const from = side < 0 ? x - depth : x;
      drawing.areas[kind] = `${drawing.areas[kind] ?? ''}M${f(from)} ${f(y)}h${f(depth)}v${f(step + 0.15)}h${f(-depth)}z`;
      const mark = markOf(kind, row, x + side * depth * 0.45, x + side * depth, y + step / 2, side);
      if (mark) drawing.marks[kind] = `${drawing.marks[kind] ?? ''}${mark}`;
    }
    const [onLeft = 0, onRight = 0] = depths;
    if (onLeft + onRight > 0.8) drawing.hairlines += `M${f(x - onLeft)} ${f(y)}h${f(onLeft + onRight)}`;
  });
  if (left.some(({ drawn }) => drawn > 0.02) || right.some(({ drawn }) => drawn > 0.02)) {
    drawing.outline = `M${edge.right.join('L')}L${edge.left.toReversed().join('L')}Z`;
  }
  return drawing;
}

function markOf(kind: Kind, row: number, middle: number, edge: number, y: number, side: number): string {
  switch (kind) {
    case 'egg':
      return row % 2 ? `M${f(middle - 1)} ${f(y)}h2` : '';
    case 'larva':
      return row % 2 ? `M${f(middle)} ${f(y)}h0` : '';
    case 'nectar':
      return row % 2 ? `M${f(edge - side * 3.4)} ${f(y)}h${f(side * 1.6)}` : '';
    case 'pollen':
      return row % 2 ? `M${f(middle - side * 1.5)} ${f(y)}h0M${f(middle + side * 2.5)} ${f(y)}h0` : '';
    case 'drone':
      return row % 2 ? `M${f(edge)} ${f(y)}h0` : '';
    default:
      return '';
  }
}

/** Bees in the seam between two combs: specks, more where there are more. */
export function drawBees(thick: number, x: number, top: number, bottom: number, wide: number, seed: number): string {
  const count = Math.round(Math.min(1, thick) * 42);
  let path = '';
  for (let bee = 0; bee < count; bee += 1) {
    const at = seed * 1000 + bee * 3;
    const px = x + (noise(at) - 0.5) * wide;
    const py = top + 4 + noise(at + 1) * (bottom - top - 8);
    const lean = (noise(at + 2) - 0.5) * 3;
    path += `M${f(px)} ${f(py)}l${f(lean)} 3`;
  }
  return path;
}
