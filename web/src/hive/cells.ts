/**
 * What lies in the cells of a frame, as the model hands it over: one number for each cell
 * (`CONTENTS` of `sim-core/src/faces.rs`, in the same order).
 */
import type { FrameCells, HiveCells } from '../types';
import { text } from '../text/index.svelte';

/** What is told apart on a face. */
export type Kind =
  | 'foundation'
  | 'drawing'
  | 'empty'
  | 'hatched'
  | 'egg'
  | 'larva'
  | 'capped'
  | 'drone'
  | 'pollen'
  | 'nectar'
  | 'honey';

/** The kind of each number; drone eggs and larvae are eggs and larvae. */
export const KINDS: readonly Kind[] = [
  'foundation',
  ...Array<Kind>(3).fill('drawing'),
  'empty',
  'hatched',
  'egg',
  ...Array<Kind>(6).fill('larva'),
  'capped',
  'egg',
  ...Array<Kind>(6).fill('larva'),
  'drone',
  'pollen',
  'nectar',
  'honey',
];

/** The kinds in the order in which they are listed. */
export const KINDS_IN_ORDER: readonly Kind[] = ['honey', 'nectar', 'pollen', 'egg', 'larva', 'capped', 'drone', 'hatched', 'empty', 'drawing', 'foundation'];

/** Where in that order the kind of each number stands. */
const PLACES = KINDS.map((kind) => KINDS_IN_ORDER.indexOf(kind));
const EMPTY = KINDS_IN_ORDER.indexOf('empty');

/** Drawn from this number on. */
const DRAWN = 4;

/** The numbers of one of the two faces of a frame. */
export function face(frame: FrameCells, side: 0 | 1): Uint8Array {
  const cells = frame.columns * frame.rows;
  return frame.contents.subarray(side * cells, (side + 1) * cells);
}

/** Counted once: the story, the cut and the frames' names ask for the same frames with each change of a slider. */
const counted = new WeakMap<Uint8Array, Readonly<Record<Kind, number>>>();

/** How many cells of each kind there are. What the model handed over is never written to. */
export function counts(contents: Uint8Array): Readonly<Record<Kind, number>> {
  let known = counted.get(contents);
  if (!known) {
    known = count(contents);
    counted.set(contents, known);
  }
  return known;
}

function count(contents: Uint8Array): Record<Kind, number> {
  const counts = Object.fromEntries(KINDS_IN_ORDER.map((kind) => [kind, 0])) as Record<Kind, number>;
  // Thousands of cells, two dozen numbers.
  const tally = new Uint32Array(256);
  for (const content of contents) tally[content] = (tally[content] ?? 0) + 1;
  for (const [content, cells] of tally.entries()) if (cells > 0) counts[KINDS[content] ?? 'empty'] += cells;
  return counts;
}

/** How a row of a face looks where the comb is cut: how deep it is drawn, and what lies in most of it. */
export interface CutRow {
  drawn: number;
  kind: Kind;
}

/** A hive in which each frame that holds the same as before, cell by cell, is the one of before: what is drawn of it need not be drawn again. */
export function keepingAlike(before: HiveCells | null, now: HiveCells): HiveCells {
  const frames = now.frames.map((frame, at) => {
    const old = before?.frames[at];
    return old && alike(old, frame) ? old : frame;
  });
  return { ...now, frames };
}

function alike({ contents, ...one }: FrameCells, { contents: others, ...other }: FrameCells): boolean {
  if (JSON.stringify(one) !== JSON.stringify(other) || contents.length !== others.length) return false;
  for (let cell = 0; cell < contents.length; cell += 1) if (contents[cell] !== others[cell]) return false;
  return true;
}

const cutOnce = new WeakMap<FrameCells, [CutRow[], CutRow[]]>();

/** The rows of both faces in the middle third, from the top down; of the same frame always the same. */
export function cutRows(frame: FrameCells): [CutRow[], CutRow[]] {
  let known = cutOnce.get(frame);
  if (!known) {
    known = rowsOf(frame);
    cutOnce.set(frame, known);
  }
  return known;
}

function rowsOf(frame: FrameCells): [CutRow[], CutRow[]] {
  const from = Math.floor(frame.columns / 3);
  const to = frame.columns - from;
  const tally = new Uint8Array(KINDS_IN_ORDER.length);
  const rows = (side: 0 | 1): CutRow[] => {
    const contents = face(frame, side);
    return Array.from({ length: frame.rows }, (_, row) => {
      tally.fill(0);
      let drawn = 0;
      let best = EMPTY;
      for (let at = row * frame.columns + from; at < row * frame.columns + to; at += 1) {
        const content = contents[at] ?? 0;
        drawn += Math.min(content, DRAWN) / DRAWN;
        if (content < DRAWN) continue;
        const kind = PLACES[content] ?? EMPTY;
        tally[kind] = (tally[kind] ?? 0) + 1;
        if ((tally[kind] ?? 0) > (tally[best] ?? 0)) best = kind;
      }
      return { drawn: drawn / (to - from), kind: KINDS_IN_ORDER[best] ?? 'empty' };
    });
  };
  return [rows(0), rows(1)];
}

/** Worker brood, and drones that are not capped yet. */
export const BROOD: readonly Kind[] = ['egg', 'larva', 'capped'];

/** Cells of a frame that hold brood. */
export function broodCells(frame: FrameCells, kinds = BROOD): number {
  const all = counts(frame.contents);
  return kinds.reduce((sum, kind) => sum + all[kind], 0);
}

/** Cells of brood that are seen on a comb at a glance. */
export const WITH_BROOD = 100;

/** On how many of these combs brood that counts as so many full frames lies; 0: on no more than it would fill. */
export function spreadOver(frames: readonly FrameCells[], full: number, kinds = BROOD): number {
  const held = frames.filter((frame) => broodCells(frame, kinds) >= WITH_BROOD).length;
  return held > Math.ceil(full) ? held : 0;
}

/** The frame that is worth opening first: the one with most brood. */
export function fullest({ frames }: HiveCells): number {
  const brood = frames.map((frame) => broodCells(frame));
  return Math.max(0, brood.indexOf(Math.max(...brood)));
}

/** A frame in words, for a reader who cannot see the drawing. */
export function inWords(frame: FrameCells): string {
  const words = text().hive;
  const all = counts(frame.contents);
  const cells = frame.contents.length;
  const said = KINDS_IN_ORDER.filter((kind) => !['foundation', 'drawing', 'hatched', 'empty'].includes(kind))
    .filter((kind) => all[kind] >= cells / 200)
    .map((kind) => words.on(words.kind[kind], share(all[kind] / cells)));
  const drawn = 1 - (all.foundation + all.drawing) / cells;
  if (drawn < 0.02) return words.notDrawn;
  const comb = drawn > 0.98 ? '' : words.drawnOn(share(drawn));
  const inside = said.length > 0 ? said.join(', ') : words.emptyComb;
  return comb ? `${comb}; ${inside}` : inside;
}

/** The parts of a frame that have a name, in the order of the catalogue's. */
const SHARES = [0.1, 0.25, 1 / 3, 0.5, 2 / 3, 0.75, 1];

/** A part of a frame as a beekeeper would say it. */
function share(part: number): string {
  const words = text().hive;
  if (part < 0.04) return words.fewCells;
  const off = SHARES.map((one) => Math.abs(one - part));
  return words.shares[off.indexOf(Math.min(...off))] ?? '';
}
