/**
 * One comb in the cut, as paths: 44 rows of cells on each side of the midrib.
 */
import type { Content, CutFrame } from './cut';

export const ROWS = 44;

/** How far each row is drawn, 0 to 1: drawing starts above the middle and goes on from there. */
export function rowLengths(drawn: number): number[] {
  if (drawn >= 0.995) return new Array<number>(ROWS).fill(1);
  if (drawn <= 0.002) return new Array<number>(ROWS).fill(0);
  const fall = 0.8 + 9 * (1 - drawn);
  const lengths = (top: number) =>
    Array.from({ length: ROWS }, (_, row) => {
      const y = (row + 0.5) / ROWS - 0.38;
      return Math.min(1, Math.max(0, top - fall * y * y));
    });
  let [low, high] = [0, 6];
  for (let i = 0; i < 30; i += 1) {
    const middle = (low + high) / 2;
    const mean = lengths(middle).reduce((sum, one) => sum + one, 0) / ROWS;
    if (mean < drawn) low = middle;
    else high = middle;
  }
  return lengths(low);
}

/** The order of contents from the top bar down; young brood lies around the old. */
export function rowContents(frame: CutFrame, lengths: readonly number[]): Content[] {
  const { shares, drawn } = frame;
  const used = lengths.flatMap((length, row) => (length > 0.03 ? [row] : []));
  const rows = new Array<Content>(ROWS).fill('empty');
  if (used.length === 0 || drawn <= 0) return rows;
  const tall = (share: number) => (share / drawn) * used.length;
  const bands: [Content, number][] = [
    ['honey', tall(shares.honey)],
    ['nectar', tall(shares.nectar)],
    ['pollen', tall(shares.pollen * 0.8)],
    ['egg', tall(shares.egg * 0.5)],
    ['larva', tall(shares.larva * 0.5)],
    ['brood', tall(shares.brood)],
    ['larva', tall(shares.larva * 0.5)],
    ['egg', tall(shares.egg * 0.5)],
    ['pollen', tall(shares.pollen * 0.2)],
    ['empty', tall(shares.empty)],
  ];
  let end = 0;
  let row = 0;
  for (const [content, height] of bands) {
    end += height;
    for (; row < used.length && row + 0.5 < end; row += 1) rows[used[row] as number] = content;
  }
  return rows;
}

/** A small, even noise from 0 to 1 that is the same every time. */
export function noise(seed: number): number {
  let x = (seed * 2_654_435_761) >>> 0;
  x = Math.imul(x ^ (x >>> 15), 2_246_822_519) >>> 0;
  x = Math.imul(x ^ (x >>> 13), 3_266_489_917) >>> 0;
  return ((x ^ (x >>> 16)) >>> 0) / 4_294_967_296;
}

export interface Drawing {
  /** Filled areas by content. */
  areas: Partial<Record<Content, string>>;
  /** Marks by content: short strokes with round ends. */
  marks: Partial<Record<Content, string>>;
  /** Hairlines between the rows. */
  hairlines: string;
  outline: string;
}

const f = (value: number) => value.toFixed(1);

/** The paths of a comb whose midrib is at `x`, between `top` and `bottom`, `half` deep on each side. */
export function drawComb(frame: CutFrame, x: number, top: number, bottom: number, half: number, seed: number): Drawing {
  const lengths = rowLengths(frame.drawn);
  const contents = rowContents(frame, lengths);
  const step = (bottom - top) / ROWS;
  const drawing: Drawing = { areas: {}, marks: {}, hairlines: '', outline: '' };
  const right: string[] = [];
  const left: string[] = [];
  for (let row = 0; row < ROWS; row += 1) {
    const length = (lengths[row] ?? 0) * half;
    const y = top + row * step;
    right.push(`${f(x + length)} ${f(y)}L${f(x + length)} ${f(y + step)}`);
    left.push(`${f(x - length)} ${f(y + step)}L${f(x - length)} ${f(y)}`);
    if (length < 0.4) continue;
    drawing.hairlines += `M${f(x - length)} ${f(y)}h${f(2 * length)}`;
    for (const side of [-1, 1]) {
      // The two sides of a comb are never quite alike.
      const shift = side < 0 ? 0 : Math.round((noise(seed) - 0.5) * 4);
      const content = contents[Math.min(ROWS - 1, Math.max(0, row + shift))] ?? 'empty';
      const x0 = side < 0 ? x - length : x;
      drawing.areas[content] = `${drawing.areas[content] ?? ''}M${f(x0)} ${f(y)}h${f(length)}v${f(step + 0.15)}h${f(-length)}z`;
      const mark = markOf(content, row, x + side * length * 0.45, x + side * length, y + step / 2, side);
      if (mark) drawing.marks[content] = `${drawing.marks[content] ?? ''}${mark}`;
    }
  }
  if (frame.drawn > 0.002) drawing.outline = `M${right.join('L')}L${left.toReversed().join('L')}Z`;
  return drawing;
}

function markOf(content: Content, row: number, middle: number, edge: number, y: number, side: number): string {
  switch (content) {
    case 'egg':
      return row % 2 ? `M${f(middle - 1)} ${f(y)}h2` : '';
    case 'larva':
      return row % 2 ? `M${f(middle)} ${f(y)}h0` : '';
    case 'nectar':
      return row % 2 ? `M${f(edge - side * 3.4)} ${f(y)}h${f(side * 1.6)}` : '';
    case 'pollen':
      return row % 2 ? `M${f(middle - side * 1.5)} ${f(y)}h0M${f(middle + side * 2.5)} ${f(y)}h0` : '';
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
