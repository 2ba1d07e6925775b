/**
 * The drawing on a visit sheet: what was found on each frame, in twelfths of its height. A visit's record cannot hold
 * it; it is kept beside the record, and the record's figures come from it here.
 */
import type { HiveCells } from '../types';
import type { Visit } from '../visits';
import { BLANK, type Content, LETTERS, NO_BROOD, PARTS } from './parts';

export { BLANK, type Content, LETTERS, NO_BROOD, PARTS };
/** What can be drawn: contents of a comb, or bees on it; and what was drawn can be rubbed out. */
export type Pencil = Content | 'bees' | 'rub';

const CONTENTS = new Map<string, Content>(Object.entries(LETTERS).map(([content, letter]) => [letter, content as Content]));

export interface SheetFrame {
  /** `PARTS` letters from the top down: `LETTERS`, `NO_BROOD` or `BLANK`. */
  comb: string;
  /** Twelfths of the frame that bees cover; none: not looked at. */
  bees: number | null;
}

/** A box whose figures were said rather than drawn, in frames. */
export interface Said {
  bees: number | null;
  brood: number | null;
  drawn: number | null;
}

export interface SheetBox {
  medium: boolean;
  frames: SheetFrame[];
  said: Said;
}

/** Boxes from the bottom up. */
export interface Sheet {
  boxes: SheetBox[];
}

const blankFrame = (): SheetFrame => ({ comb: BLANK.repeat(PARTS), bees: null });
const nothingSaid = (): Said => ({ bees: null, brood: null, drawn: null });

/** An empty sheet for the hive as it should stand on that day. */
export function sheetFor(cells: HiveCells): Sheet {
  const boxes: SheetBox[] = [];
  for (const { inBox, place, medium } of cells.frames) {
    const box = (boxes[inBox] ??= { medium, frames: [], said: nothingSaid() });
    while (box.frames.length <= place) box.frames.push(blankFrame());
  }
  return { boxes };
}

/** A drawing on a hive that has grown since: boxes and frames that are there now, and everything that was drawn. */
export function fitted(sheet: Sheet, hive: Sheet): Sheet {
  const count = Math.max(sheet.boxes.length, hive.boxes.length);
  const boxes = Array.from({ length: count }, (_, b): SheetBox => {
    const [old, now] = [sheet.boxes[b], hive.boxes[b]];
    if (!old || !now) return (old ?? now) as SheetBox;
    return { ...old, frames: [...old.frames, ...now.frames.slice(old.frames.length)] };
  });
  return { boxes };
}

export const contentOf = (letter: string | undefined): Content | null => CONTENTS.get(letter ?? '') ?? null;

/** A stretch of one content, in parts from the top. */
export interface Band {
  content: Content;
  from: number;
  to: number;
}

/** What is drawn on a comb, from the top down. */
export function bands(comb: string): Band[] {
  const out: Band[] = [];
  for (let part = 0; part < PARTS; part += 1) {
    const content = contentOf(comb[part]);
    if (!content) continue;
    const last = out.at(-1);
    if (last && last.content === content && last.to === part) last.to = part + 1;
    else out.push({ content, from: part, to: part + 1 });
  }
  return out;
}

/** The part below the last one that is drawn. */
export const filled = (comb: string): number => bands(comb).at(-1)?.to ?? 0;

function painted(comb: string, content: Content | null, from: number, to: number): string {
  const letter = content ? LETTERS[content] : BLANK;
  return comb.slice(0, from) + letter.repeat(Math.max(0, to - from)) + comb.slice(Math.max(from, to));
}

/** Whether nothing is known of a part but, at most, that no brood is there. */
const open = (comb: string, part: number): boolean => contentOf(comb[part]) === null;

/**
 * A stroke with a word, from the part where the finger came down to the one where it is: the word lies where it was
 * drawn, whatever lay there. Where the finger came down on the lower edge of what the word has drawn, it takes that edge
 * along.
 */
export function stroke(comb: string, content: Content, down: number, at: number): string {
  const taken = bands(comb).find((band) => band.content === content && (band.to - 1 === down || band.to === down));
  const base = taken ? painted(comb, null, taken.from, taken.to) : comb;
  // A finger is not as fine as a part. One that comes down on the end of another word and goes on below it, where nothing
  // is drawn, begins below it; and one part that is left over towards a bar, or towards what is drawn, was not left out.
  const onAnEnd = at > down && !open(comb, down) && open(comb, down + 1);
  const begun = taken ? taken.from : onAnEnd ? down + 1 : down;
  let [from, to] = [Math.min(begun, at), Math.max(begun, at) + 1];
  if (from > 0 && open(base, from - 1) && (from === 1 || !open(base, from - 2))) from -= 1;
  if (to < PARTS && open(base, to) && (to === PARTS - 1 || !open(base, to + 1))) to += 1;
  return painted(base, content, from, to);
}

/** A frame after a stroke of a pencil that came down at a part and is at another, or at the edge nearest to it. */
export function drawn(frame: SheetFrame, pencil: Pencil, down: number, at: number, edge: number): SheetFrame {
  if (pencil === 'bees') return { ...frame, bees: edge };
  if (pencil === 'rub') return rubbed(frame, Math.min(down, at), Math.max(down, at) + 1);
  return { ...frame, comb: stroke(frame.comb, pencil, down, at) };
}

/** Rubs parts of a comb out; where nothing is known of it, the bees. */
function rubbed(frame: SheetFrame, from: number, to: number): SheetFrame {
  return !known(frame.comb) ? { ...frame, bees: null } : { ...frame, comb: painted(frame.comb, null, from, to) };
}

/** One part more of a word at the lower end of the drawing, or the lowest part taken away. */
export function nudged(comb: string, content: Content, by: 1 | -1): string {
  const end = filled(comb);
  if (by > 0) return end < PARTS ? painted(comb, content, end, end + 1) : comb;
  return end > 0 ? painted(comb, null, end - 1, end) : comb;
}

/** A comb with a word, or a letter, wherever nothing is drawn. */
const filledUp = (comb: string, letter: string): string => Array.from(comb, (one, part) => (open(comb, part) ? letter : one)).join('');

/** A frame with one part more, or less, of what the pencil draws. */
export function drawnFurther(frame: SheetFrame, pencil: Pencil, by: 1 | -1): SheetFrame {
  if (pencil === 'bees') return { ...frame, bees: Math.min(Math.max((frame.bees ?? 0) + by, 0), PARTS) };
  const end = filled(frame.comb);
  if (pencil === 'rub') return by > 0 ? rubbed(frame, Math.max(0, end - 1), end) : frame;
  return { ...frame, comb: nudged(frame.comb, pencil, by) };
}

/** A frame drawn on down to its bottom bar; rubbed out, all of it. */
export function drawnToTheFoot(frame: SheetFrame, pencil: Pencil): SheetFrame {
  if (pencil === 'bees') return { ...frame, bees: PARTS };
  return pencil === 'rub' ? blankFrame() : { ...frame, comb: painted(frame.comb, pencil, filled(frame.comb), PARTS) };
}

/** A drawing with some frames of a box drawn anew. */
export function withFrames(sheet: Sheet, b: number, frames: ReadonlyMap<number, SheetFrame>): Sheet {
  return {
    boxes: sheet.boxes.map((box, i) => (i === b ? { ...box, frames: box.frames.map((frame, place) => frames.get(place) ?? frame) } : box)),
  };
}

export function withSaid(sheet: Sheet, b: number, said: Partial<Said>): Sheet {
  return { boxes: sheet.boxes.map((box, i) => (i === b ? { ...box, said: { ...box.said, ...said } } : box)) };
}

export const wholly = (comb: string): boolean => !comb.includes(BLANK) && !comb.includes(NO_BROOD);
const untouched = (comb: string): boolean => bands(comb).length === 0;
/** Whether something is known of a comb, and be it that there is no brood on it. */
const known = (comb: string): boolean => comb !== BLANK.repeat(PARTS);

/** Frames of a box on which nothing was drawn with this word's pencil. */
export function untouchedIn(box: SheetBox, pencil: Pencil): number[] {
  return box.frames.flatMap(({ comb, bees }, i) => ((pencil === 'bees' ? bees === null : untouched(comb)) ? [i] : []));
}

/** What can be counted in a drawing, box by box. */
export type Counted = keyof Said;

const COUNTS: Record<Exclude<Counted, 'bees'>, (content: Content) => boolean> = {
  brood: (content) => content === 'brood',
  drawn: (content) => content !== 'undrawn',
};

const parts = (comb: string, counts: (content: Content) => boolean): number =>
  bands(comb).reduce((sum, { content, from, to }) => sum + (counts(content) ? to - from : 0), 0);

const quarters = (frames: number): number => Math.round(frames * 4) / 4;

/** A figure of a box: what was said, or what is drawn; not whole where some of the box was not looked at. */
export interface BoxFigure {
  frames: number;
  whole: boolean;
  said: boolean;
}

export function boxFigure(box: SheetBox, what: Counted): BoxFigure | null {
  const said = box.said[what];
  if (said !== null) return { frames: said, whole: true, said: true };
  if (what === 'bees') {
    const seen = box.frames.flatMap(({ bees }) => (bees === null ? [] : [bees]));
    if (seen.length === 0) return null;
    return { frames: quarters(seen.reduce((sum, bees) => sum + bees, 0) / PARTS), whole: seen.length === box.frames.length, said: false };
  }
  if (!box.frames.some(({ comb }) => (what === 'brood' ? known(comb) : !untouched(comb)))) return null;
  const frames = box.frames.reduce((sum, { comb }) => sum + parts(comb, COUNTS[what]), 0) / PARTS;
  return { frames: quarters(frames), whole: box.frames.every((frame) => looked(frame, what)), said: false };
}

/** Whether all is known that this figure takes of a frame. Brood ends where its stroke ends; what is beside it may be comb or none. */
function looked({ comb, bees }: SheetFrame, what: Counted): boolean {
  if (what === 'bees') return bees !== null;
  return what === 'drawn' ? wholly(comb) : !comb.includes(BLANK) || parts(comb, COUNTS.brood) > 0;
}

/** Frames of a box of which a figure does not know all. */
export const openIn = (box: SheetBox, what: Counted): SheetFrame[] => box.frames.filter((frame) => !looked(frame, what));

/** A figure for every box; none where a box was not looked at all over: what was not looked at is not zero. */
function boxes(sheet: Sheet, what: Counted): number[] | null {
  const all = sheet.boxes.map((box) => boxFigure(box, what));
  return all.length > 0 && all.every((one) => one?.whole) ? all.map((one) => one?.frames ?? 0) : null;
}

/** A box that keeps figures of the whole hive from being written down: others were looked at, it was not, or not all over. */
export interface HeldBack {
  box: number;
  what: Counted[];
  /** Its frames on which nothing is drawn. */
  unseen: number;
  /** Its frames that are drawn in part. */
  unfinished: number;
  /** Nothing of it was looked at. */
  untouched: boolean;
}

export function heldBack(sheet: Sheet): HeldBack[] {
  const begun = (['bees', 'brood', 'drawn'] as const).filter((what) => sheet.boxes.some((box) => boxFigure(box, what) !== null));
  return sheet.boxes.flatMap((box, b) => {
    const what = begun.filter((one) => !boxFigure(box, one)?.whole);
    if (what.length === 0) return [];
    const open = box.frames.filter((frame) => what.some((one) => !looked(frame, one)));
    const unseen = open.filter(({ comb, bees }) => bees === null && untouched(comb)).length;
    return [{ box: b, what, unseen, unfinished: open.length - unseen, untouched: what.every((one) => boxFigure(box, one) === null) }];
  });
}

/** Entries of a record that say how much of something there is. */
const AMOUNTS = ['frames_of_bees', 'frames_of_brood', 'frames_drawn', 'frames_of_stores', 'stores_kg', 'weight_kg', 'wash', 'mite_fall', 'syrup_taken'] as const;

/**
 * Whether a drawing was begun of which nothing is used, while the record holds no more than what is found in any sound
 * hive: eggs, a queen, no queen cells. A verdict on it would be one on nothing.
 */
export function isUnfinished(visit: Visit, sheet: Sheet): boolean {
  const amounts = AMOUNTS.some((field) => visit[field] != null);
  const trouble = visit.eggs_seen === false || (visit.charged_cells ?? 0) + (visit.capped_cells ?? 0) > 0;
  return heldBack(sheet).length > 0 && !amounts && !trouble;
}

/** A box in which nothing was found: no bees where bees were looked for, no comb. What is drawn in it stays. */
export function countedEmpty(sheet: Sheet, { box: b, what }: HeldBack): Sheet {
  const none = (frame: SheetFrame): SheetFrame => ({
    comb: what.some((one) => one !== 'bees') ? filledUp(frame.comb, LETTERS.undrawn) : frame.comb,
    bees: what.includes('bees') ? (frame.bees ?? 0) : frame.bees,
  });
  return { boxes: sheet.boxes.map((box, i) => (i === b ? { ...box, frames: box.frames.map(none) } : box)) };
}

/** None of what keeps the figures back was in that box: somebody says so, and nothing is drawn for it. */
export function noneIn(sheet: Sheet, { box, what }: HeldBack): Sheet {
  return withSaid(sheet, box, Object.fromEntries(what.map((one) => [one, 0])));
}

/** What is known of the brood of a drawing: on how many frames it is drawn, and whether more of it may be elsewhere. */
export function broodDrawn({ boxes }: Sheet): { frames: number; open: boolean } {
  const frames = boxes.flatMap((box) => box.frames).filter(({ comb }) => parts(comb, COUNTS.brood) > 0).length;
  return { frames, open: boxes.some((box) => !boxFigure(box, 'brood')?.whole) };
}

/** There was no brood but what is drawn, whether the rest was looked at or not: somebody knows that, and says so. */
export function noOtherBrood(sheet: Sheet): Sheet {
  return { boxes: sheet.boxes.map((box) => ({ ...box, frames: box.frames.map((frame) => ({ ...frame, comb: filledUp(frame.comb, NO_BROOD) })) })) };
}

/** Frames on which something is drawn, and something is left out. */
export const unfinished = ({ boxes }: Sheet): SheetFrame[] => boxes.flatMap((box) => box.frames).filter(({ comb }) => !untouched(comb) && !wholly(comb));

/** The rest of those frames is this. Frames without a stroke stay as they are: nobody looked at them. */
export function finished(sheet: Sheet, content: Content): Sheet {
  const left = new Set(unfinished(sheet));
  const done = (frame: SheetFrame) => (left.has(frame) ? { ...frame, comb: filledUp(frame.comb, LETTERS[content]) } : frame);
  return { boxes: sheet.boxes.map((box) => ({ ...box, frames: box.frames.map(done) })) };
}

/** Frames of honey, where every comb of the hive was looked at all over. */
export function framesOfStores(sheet: Sheet): number | null {
  const combs = sheet.boxes.flatMap(({ frames }) => frames.map(({ comb }) => comb));
  if (combs.length === 0 || !combs.every(wholly)) return null;
  return quarters(combs.reduce((sum, comb) => sum + parts(comb, (content) => content === 'honey'), 0) / PARTS);
}

/** The record of a visit with the figures of its drawing. Weighed or estimated stores stand before drawn ones. */
export function recorded(visit: Visit, sheet: Sheet): Visit {
  const { frames_of_bees: _b, frames_of_brood: _o, frames_drawn: _d, frames_of_stores: _s, ...rest } = visit;
  const [bees, brood, drawn] = [boxes(sheet, 'bees'), boxes(sheet, 'brood'), boxes(sheet, 'drawn')];
  const stores = rest.stores_kg == null ? framesOfStores(sheet) : null;
  return {
    ...rest,
    ...(bees ? { frames_of_bees: bees } : {}),
    ...(brood ? { frames_of_brood: brood } : {}),
    ...(drawn ? { frames_drawn: drawn } : {}),
    ...(stores !== null ? { frames_of_stores: stores } : {}),
  };
}

/** Whether nothing at all was written or drawn. */
export function isBlank(visit: Visit, sheet: Sheet): boolean {
  const { date: _, notes, ...looked } = visit;
  const drawn = sheet.boxes.some(
    ({ frames, said }) => Object.values(said).some((one) => one !== null) || frames.some(({ comb, bees }) => bees !== null || known(comb)),
  );
  return !drawn && !notes && Object.values(looked).every((value) => value == null || (Array.isArray(value) && value.length === 0));
}
