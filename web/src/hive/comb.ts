/**
 * One comb in the cut, as paths: its rows of cells on each side of the midrib.
 */
import { tenths } from '../scales';
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

/** Rows of one side that are drawn alike and hold the same, one after the other: one area, not one for each row. */
interface RunOfRows {
  from: number;
  to: number;
  depth: number;
  kind: Kind;
}

function runsOf(rows: readonly CutRow[], half: number): RunOfRows[] {
  const runs: RunOfRows[] = [];
  rows.forEach(({ drawn, kind }, row) => {
    const depth = tenths(drawn * half);
    const last = runs.at(-1);
    if (last && last.kind === kind && last.depth === depth) last.to = row + 1;
    else runs.push({ from: row, to: row + 1, depth, kind });
  });
  return runs;
}

/** The paths of a comb whose midrib is at `x`, between `top` and `bottom`, `half` deep on each side. */
export function drawComb([left, right]: readonly [CutRow[], CutRow[]], x: number, top: number, bottom: number, half: number): Drawing {
  const step = (bottom - top) / left.length;
  const at = (row: number) => tenths(top + row * step);
  const drawing: Drawing = { areas: {}, marks: {}, hairlines: '', outline: '' };
  const edges = ([[-1, left], [1, right]] as const).map(([side, rows]) => {
    const edge: string[] = [];
    for (const { from, to, depth, kind } of runsOf(rows, half)) {
      const out = tenths(x + side * depth);
      edge.push(`${out} ${at(from)}`, `${out} ${at(to)}`);
      if (depth < 0.4) continue;
      drawing.areas[kind] = `${drawing.areas[kind] ?? ''}M${side < 0 ? out : tenths(x)} ${at(from)}h${depth}V${tenths(top + to * step + 0.15)}h${-depth}z`;
      let marks = '';
      for (let row = from; row < to; row += 1) marks += markOf(kind, row, x + side * depth * 0.45, out, at(row + 0.5), side);
      if (marks) drawing.marks[kind] = `${drawing.marks[kind] ?? ''}${marks}`;
    }
    return edge;
  });
  left.forEach(({ drawn }, row) => {
    const [onLeft, onRight] = [drawn * half, (right[row]?.drawn ?? drawn) * half];
    if (onLeft + onRight > 0.8) drawing.hairlines += `M${tenths(x - onLeft)} ${at(row)}h${tenths(onLeft + onRight)}`;
  });
  if (left.some(({ drawn }) => drawn > 0.02) || right.some(({ drawn }) => drawn > 0.02)) {
    const [onLeft = [], onRight = []] = edges;
    drawing.outline = `M${onRight.join('L')}L${onLeft.toReversed().join('L')}Z`;
  }
  return drawing;
}

function markOf(kind: Kind, row: number, middle: number, edge: number, y: number, side: number): string {
  switch (kind) {
    case 'egg':
      return row % 2 ? `M${tenths(middle - 1)} ${tenths(y)}h2` : '';
    case 'larva':
      return row % 2 ? `M${tenths(middle)} ${tenths(y)}h0` : '';
    case 'nectar':
      return row % 2 ? `M${tenths(edge - side * 3.4)} ${tenths(y)}h${tenths(side * 1.6)}` : '';
    case 'pollen':
      return row % 2 ? `M${tenths(middle - side * 1.5)} ${tenths(y)}h0M${tenths(middle + side * 2.5)} ${tenths(y)}h0` : '';
    case 'drone':
      return row % 2 ? `M${tenths(edge)} ${tenths(y)}h0` : '';
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
    path += `M${tenths(px)} ${tenths(py)}l${tenths(lean)} 3`;
  }
  return path;
}
