import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { visitsTypes } from '../scripts/types.mjs';
import type { Visit } from '../src/visits';
import { BELOW } from '../src/text/below';
import { type Expected, expectedOn, likelyIn } from '../src/visit/expected';
import { bands, BLANK, boxFigure, broodDrawn, type Content, countedEmpty, drawn, drawnFurther, drawnToTheFoot, finished, fitted, type HeldBack, heldBack, isBlank, isUnfinished, LETTERS, NO_BROOD, nudged, noneIn, noOtherBrood, openIn, PARTS, recorded, type Sheet, type SheetBox, sheetFor, type SheetFrame, stroke, unfinished, untouchedIn, withSaid } from '../src/visit/sheet';
import { sayFrame, sayHeldBack } from '../src/visit/words';
import { dayNumber } from '../src/calendar';
import type { BandsView } from '../src/crowd/bands';
import { type CutRow, cutRows } from '../src/hive/cells';
import { SeasonView } from '../src/season';
import type { FrameCells } from '../src/types';
import { catalogue } from '../src/wasm/sim_wasm.js';
import { explorer, run, scenario } from './door';

const blank = BLANK.repeat(PARTS);
const box = (combs: string[], bees: (number | null)[] = []): SheetBox => ({
  medium: false,
  frames: combs.map((comb, i) => ({ comb, bees: bees[i] ?? null })),
  said: { bees: null, brood: null, drawn: null },
});
const sheet = (...boxes: SheetBox[]): Sheet => ({ boxes });
const visit: Visit = { date: '2012-06-11' };

describe('the visits file', () => {
  it('has the types that the page is written against', async () => {
    expect(readFileSync(new URL('../src/visits.ts', import.meta.url), 'utf8')).toBe(await visitsTypes());
  });
});

describe('what is expected', () => {
  it('has its range parted over the boxes as the figure is', () => {
    const expected = { frames: { bees: [3, 1], brood: [0, 0], drawn: [9, 1] }, likely: { bees: { low: 2, high: 6 }, brood: { low: 0, high: 1 } } } as unknown as Expected;
    expect(likelyIn(expected, 'bees', 0)).toEqual({ low: 1.5, high: 4.5 });
    expect(likelyIn(expected, 'bees', 1)).toEqual({ low: 0.5, high: 1.5 });
    expect(likelyIn(expected, 'brood', 0)).toBeNull();
    expect(likelyIn(expected, 'drawn', 0)).toBeNull();
  });

  describe('copied onto the sheet', () => {
    const made = explorer();
    const plan = scenario('wet-spring.toml');
    const season = new SeasonView(run(made, 'plan', plan), catalogue());
    const AS: Record<CutRow['kind'], Content> = {
      honey: 'honey', nectar: 'honey', pollen: 'pollen', egg: 'brood', larva: 'brood', capped: 'brood', drone: 'drone', hatched: 'empty', empty: 'empty', drawing: 'undrawn', foundation: 'undrawn',
    };
    /** A comb as a hand copies it, part by part. */
    const copied = (rows: readonly CutRow[]) =>
      Array.from({ length: PARTS }, (_, part) => {
        const row = rows[Math.floor(((part + 0.5) / PARTS) * rows.length)];
        return LETTERS[!row || row.drawn < 1 ? 'undrawn' : AS[row.kind]];
      }).join('');
    const sum = (boxes: readonly number[] | undefined) => (boxes ?? []).reduce((all, one) => all + one, 0);
    const copy = (day: string, rowsOf?: (frame: FrameCells) => CutRow[]) => {
      const cells = made.cells(JSON.stringify(plan), day);
      const expected = expectedOn(season, null, cells, dayNumber(day));
      const drawing = sheetFor(cells);
      for (const [b, { frames }] of expected.boxes.entries()) {
        for (const { cells: frame, rows } of frames) {
          const drawnOn = drawing.boxes[b]?.frames[frame.place];
          if (drawnOn) drawnOn.comb = copied(rowsOf ? rowsOf(frame) : rows[0]);
        }
      }
      const { frames_of_brood, frames_drawn } = recorded({ date: day }, drawing);
      return { expected, found: { brood: sum(frames_of_brood), drawn: sum(frames_drawn) } };
    };

    // A nest of one box, of two, the most that there is, and autumn.
    it.each(['2012-05-20', '2012-06-11', '2012-07-10', '2012-09-10'])('gives about the figures that were expected on %s', (day) => {
      const { expected, found } = copy(day);
      // A part of a frame is a twelfth, and figures are kept in quarters: they are off by less than what a hand is.
      expect(sum(expected.frames.brood)).toBeGreaterThan(0.5);
      expect(Math.abs(found.brood - sum(expected.frames.brood))).toBeLessThanOrEqual(0.3);
      expect(Math.abs(found.drawn - sum(expected.frames.drawn))).toBeLessThanOrEqual(0.3);
    });
    it('has no range that leaves out its own number', () => {
      const on = dayNumber('2012-07-10');
      const bands = (bees: number) => ({ at: (_: string, line: number) => (line === 5 ? bees : 2 * bees) }) as unknown as BandsView;
      const [bees, frames] = [season.at('adult_bees', on), season.at('frames_of_bees', on)];
      const likely = (from: number) => expectedOn(season, bands(from), made.cells(JSON.stringify(plan), '2012-07-10'), on).likely;
      expect(likely(0.8 * bees).bees?.low).toBeCloseTo(0.8 * frames);
      expect(likely(0.3 * bees).bees).toBeUndefined();
      expect(likely(2 * bees).bees).toBeUndefined();
    });
    it('would give too much brood, were it the cut through the middle of each comb', () => {
      const { expected, found } = copy('2012-06-11', (frame) => cutRows(frame)[0]);
      expect(found.brood - sum(expected.frames.brood)).toBeGreaterThan(0.3);
    });
  });
});

describe('a stroke', () => {
  it('lies where it was drawn, and leaves blank what is above and below', () => {
    expect(stroke(blank, 'brood', 4, 9)).toBe('....bbbbbb..');
    expect(stroke(blank, 'brood', 9, 4)).toBe('....bbbbbb..');
    expect(stroke('hh..........', 'brood', 5, 8)).toBe('hh...bbbb...');
    expect(stroke('....bbbbbb..', 'honey', 0, 1)).toBe('hh..bbbbbb..');
  });
  it('reaches a bar, and what is drawn already, where it would miss them by one part', () => {
    expect(stroke(blank, 'honey', 1, 2)).toBe('hhh.........');
    expect(stroke(blank, 'empty', 8, 10)).toBe('........eeee');
    expect(stroke('hhh.........', 'brood', 4, 8)).toBe('hhhbbbbbb...');
    expect(stroke('....bbbb....', 'honey', 0, 2)).toBe('hhhhbbbb....');
    // Struck through is not drawn.
    expect(stroke('hhhnnnnnnnnn', 'brood', 5, 8)).toBe('hhhnnbbbbnnn');
  });
  it('takes the lower edge of its word along, up and down', () => {
    expect(stroke('hhhbbbbbb...', 'brood', 8, 5)).toBe('hhhbbb......');
    expect(stroke('hhhbbb......', 'brood', 6, 9)).toBe('hhhbbbbbbb..');
    expect(stroke('..bb..ee....', 'brood', 3, 6)).toBe('..bbbbbe....');
    // Above its own top it is turned over.
    expect(stroke('.....b......', 'brood', 5, 2)).toBe('..bbbb......');
  });
  it('drawn again makes a word longer, never shorter', () => {
    expect(stroke('....bbbbbb..', 'brood', 4, 7)).toBe('....bbbbbb..');
    expect(stroke('....bbbb....', 'brood', 5, 9)).toBe('....bbbbbb..');
    expect(stroke('....bbbb....', 'brood', 6, 2)).toBe('..bbbbbb....');
  });
  it('does not take the end of the drawing away where the finger comes down a little too high', () => {
    expect(stroke('hhhp........', 'brood', 3, 8)).toBe('hhhpbbbbb...');
    expect(stroke('hhhp........', 'brood', 3, 2)).toBe('hhbb........');
  });
  it('rubs out parts, and then the bees', () => {
    const frame = { comb: 'hhhbbbbbb...', bees: 6 };
    expect(drawn(frame, 'rub', 7, 8, 9)).toEqual({ comb: 'hhhbbbb.....', bees: 6 });
    expect(drawn({ comb: blank, bees: 6 }, 'rub', 7, 8, 9)).toEqual({ comb: blank, bees: null });
    expect(drawnFurther(frame, 'rub', 1)).toEqual({ comb: 'hhhbbbbb....', bees: 6 });
    expect(drawnToTheFoot(frame, 'rub')).toEqual({ comb: blank, bees: null });
  });
  it('covers a frame with bees as far as the finger is', () => {
    expect(drawn({ comb: blank, bees: null }, 'bees', 0, 5, 6)).toEqual({ comb: blank, bees: 6 });
    expect(drawnFurther({ comb: blank, bees: null }, 'bees', -1)).toEqual({ comb: blank, bees: 0 });
  });
  it('draws over what is there', () => {
    expect(stroke('hhhbbbbbbbbb', 'pollen', 2, 3)).toBe('hhppbbbbbbbb');
    expect(stroke('hhhbbbbbbbbb', 'empty', 11, 9)).toBe('hhhbbbbbbeee');
  });
  it('has a keyboard’s way', () => {
    expect(nudged('hhh.........', 'brood', 1)).toBe('hhhb........');
    expect(nudged('hhhb........', 'brood', -1)).toBe('hhh.........');
    expect(nudged(blank, 'brood', -1)).toBe(blank);
    expect(nudged('hhhhhhhhhhhh', 'brood', 1)).toBe('hhhhhhhhhhhh');
    expect(drawnToTheFoot({ comb: 'hh.b........', bees: null }, 'empty').comb).toBe('hh.beeeeeeee');
  });
  it('is told in bands', () => {
    expect(bands('hhpp..bbbbbb')).toEqual([
      { content: 'honey', from: 0, to: 2 },
      { content: 'pollen', from: 2, to: 4 },
      { content: 'brood', from: 6, to: 12 },
    ]);
  });
});

describe('the figures of a drawing', () => {
  const looked = box(['hhhbbbbbbeee', 'hhhhbbbbbbbb', 'eeeeeeuuuuuu', 'uuuuuuuuuuuu'], [12, 6, 3, 0]);

  it('are frames in quarters, box by box', () => {
    // Brood: 6 + 8 twelfths; drawn: 12 + 12 + 6; honey: 3 + 4; bees: 21.
    expect(recorded(visit, sheet(looked))).toEqual({
      date: '2012-06-11',
      frames_of_bees: [1.75],
      frames_of_brood: [1.25],
      frames_drawn: [2.5],
      frames_of_stores: 0.5,
    });
  });
  it('are not there where a frame was not looked at: blank is not zero', () => {
    const partly = box(['hhhbbbbbbeee', blank], [12, null]);
    expect(recorded(visit, sheet(partly))).toEqual(visit);
    expect(boxFigure(partly, 'brood')).toEqual({ frames: 0.5, whole: false, said: false });
    expect(boxFigure(box([blank, blank]), 'brood')).toBeNull();
    expect(untouchedIn(partly, 'brood')).toEqual([1]);
    expect(untouchedIn(partly, 'bees')).toEqual([1]);
  });
  it('are not there where a box was not looked at', () => {
    expect(recorded(visit, sheet(looked, box([blank])))).toEqual(visit);
    const upper = box([blank]);
    upper.said.bees = 0.5;
    expect(recorded(visit, sheet(looked, upper))).toEqual({ date: '2012-06-11', frames_of_bees: [1.75, 0.5] });
  });
  it('are what was said where something was said', () => {
    const said = { ...looked, said: { bees: 3, brood: null, drawn: 0 } };
    expect(recorded(visit, sheet(said))).toMatchObject({ frames_of_bees: [3], frames_of_brood: [1.25], frames_drawn: [0] });
  });
  it('leave weighed stores alone, and go when the drawing goes', () => {
    const record = recorded({ ...visit, stores_kg: 4 }, sheet(looked));
    expect(record).toMatchObject({ stores_kg: 4 });
    expect(record).not.toHaveProperty('frames_of_stores');
    expect(recorded(record, sheet(box([blank])))).toEqual({ ...visit, stores_kg: 4 });
  });
});

describe('a sheet', () => {
  it('grows with the hive and keeps what was drawn', () => {
    const old = sheet(box(['bbbbbbbbbbbb']));
    const hive = sheet(box([blank, blank]), box([blank]));
    expect(fitted(old, hive).boxes.map(({ frames }) => frames.map(({ comb }) => comb))).toEqual([['bbbbbbbbbbbb', blank], [blank]]);
    expect(fitted(hive, old)).toEqual(hive);
  });
  it('is blank until something is drawn or written', () => {
    expect(isBlank(visit, sheet(box([blank])))).toBe(true);
    expect(isBlank({ ...visit, notes: '', eggs_seen: null }, sheet(box([blank])))).toBe(true);
    expect(isBlank({ ...visit, eggs_seen: false }, sheet(box([blank])))).toBe(false);
    expect(isBlank({ ...visit, notes: 'calm' }, sheet(box([blank])))).toBe(false);
    expect(isBlank(visit, sheet(box([blank], [0])))).toBe(false);
  });
});

describe('a box that was not looked at', () => {
  const done = 'b'.repeat(PARTS);
  it('keeps the figures of the others back, and none where nothing was begun', () => {
    expect(heldBack(sheet(box([done, done]), box([blank, blank])))).toEqual([{ box: 1, what: ['brood', 'drawn'], unseen: 2, unfinished: 0, untouched: true }]);
    expect(heldBack(sheet(box([done, done]), box([done, blank])))).toEqual([{ box: 1, what: ['brood', 'drawn'], unseen: 1, unfinished: 0, untouched: false }]);
    expect(heldBack(sheet(box([blank]), box([blank])))).toEqual([]);
    expect(heldBack(sheet(box([done], [3]), box([done], [0])))).toEqual([]);
  });

  it('counts as empty where somebody says so, and the hive has its figures', () => {
    const half = sheet(box([done, done], [6, 6]), box([blank, blank]));
    const [held] = heldBack(half);
    if (!held) throw new Error('Nothing is held back.');
    const whole = countedEmpty(half, held);
    expect(heldBack(whole)).toEqual([]);
    expect(recorded(visit, whole)).toEqual({ date: '2012-06-11', frames_of_bees: [1, 0], frames_of_brood: [2, 0], frames_drawn: [2, 0], frames_of_stores: 0 });
  });

  it('has none of what was said of the others where somebody says so, and nothing is drawn for it', () => {
    const said = withSaid(sheet(box([blank]), box([blank])), 0, { brood: 2 });
    const [held] = heldBack(said);
    if (!held) throw new Error('Nothing is held back.');
    for (const words of [BELOW.en.visit, BELOW.de.visit]) expect(sayHeldBack(held, said, words)).toContain(words.box(1, 2, false));
    const none = noneIn(said, held);
    expect(heldBack(none)).toEqual([]);
    expect(none.boxes.map(({ frames }) => frames)).toEqual(said.boxes.map(({ frames }) => frames));
    expect(recorded(visit, none)).toEqual({ date: '2012-06-11', frames_of_brood: [2, 0] });
  });

  it('keeps what was drawn in it', () => {
    const half = sheet(box([done], [6]), box([done]));
    expect(heldBack(half)).toEqual([{ box: 1, what: ['bees'], unseen: 0, unfinished: 1, untouched: true }]);
    expect(countedEmpty(half, { box: 1, what: ['bees'], unseen: 0, unfinished: 1, untouched: true }).boxes[1]?.frames[0]).toEqual({ comb: done, bees: 0 });
  });
});

describe('a drawing that is not finished', () => {
  /** Honey on four frames, brood on two of them, bees on the four; six were not touched. */
  const four = ['hhhh........', 'hhhhbbbbb...', 'hhhhbbbbb...', 'hhhh........'];
  const begun = sheet(box([blank, blank, ...four, blank, blank, blank, blank], [null, null, 12, 12, 12, 12]));
  const none = { ...visit, cups: 0, charged_cells: 0, capped_cells: 0 };

  it('says which frames were not looked at, and which not to the end', () => {
    expect(heldBack(begun)).toEqual([{ box: 0, what: ['bees', 'brood', 'drawn'], unseen: 6, unfinished: 4, untouched: false }]);
    expect(openIn(begun.boxes[0] as SheetBox, 'brood')).toHaveLength(8);
    for (const words of [BELOW.en.visit, BELOW.de.visit]) expect(sayHeldBack(heldBack(begun)[0] as HeldBack, begun, words)).toMatch(/6 .+4 /);
  });
  it('is no ground for a verdict where the record has only what any sound hive has', () => {
    expect(isUnfinished(recorded(none, begun), begun)).toBe(true);
    expect(isUnfinished({ ...none, eggs_seen: true, queen_seen: true }, begun)).toBe(true);
    for (const told of [{ eggs_seen: false }, { stores_kg: 4 }, { capped_cells: 3 }, { wash: { mites: 2 } }]) expect(isUnfinished({ ...none, ...told }, begun)).toBe(false);
    // Nothing drawn: what is written down is all that was meant.
    expect(isUnfinished({ ...none, eggs_seen: true }, sheet(box([blank])))).toBe(false);
  });
  it('has its brood judged after one word: there was no other', () => {
    const hive = sheet(begun.boxes[0] as SheetBox, box(Array<string>(10).fill(blank)));
    expect(broodDrawn(hive)).toEqual({ frames: 2, open: true });
    expect(recorded(visit, hive)).toEqual(visit);
    const said = noOtherBrood(hive);
    expect(broodDrawn(said)).toEqual({ frames: 2, open: false });
    expect(recorded(visit, said)).toEqual({ ...visit, frames_of_brood: [0.75, 0] });
    expect(isUnfinished(recorded(visit, said), said)).toBe(false);
    // Nothing else is known by that: comb and bees stay blank, and what is drawn later counts.
    expect(heldBack(said).map(({ what }) => what)).toEqual([['bees', 'drawn'], ['bees', 'drawn']]);
    expect(said.boxes[1]?.frames[0]).toEqual({ comb: NO_BROOD.repeat(PARTS), bees: null });
    const more = { boxes: said.boxes.map((one, b) => (b === 1 ? { ...one, frames: one.frames.map((frame, i) => (i === 4 ? { ...frame, comb: stroke(frame.comb, 'brood', 3, 8) } : frame)) } : one)) };
    expect(recorded(visit, more)).toEqual({ ...visit, frames_of_brood: [0.75, 0.5] });
    for (const { visit: words } of [BELOW.en, BELOW.de]) {
      expect(sayFrame(said.boxes[1]?.frames[0] as SheetFrame, words)).toBe(words.noBroodSaid);
      expect(sayFrame({ comb: 'hhhhbbbbbnnn', bees: null }, words)).toContain(words.restNoBrood);
    }
  });
  it('takes back that there is no brood where it is rubbed out', () => {
    const frame = { comb: NO_BROOD.repeat(PARTS), bees: 3 };
    expect(drawnToTheFoot(frame, 'rub')).toEqual({ comb: blank, bees: null });
    expect(isBlank(visit, sheet(box([drawn(frame, 'rub', 0, 10, 11).comb])))).toBe(false);
    expect(boxFigure(box([frame.comb, blank]), 'brood')).toEqual({ frames: 0, whole: false, said: false });
    expect(boxFigure(box([frame.comb]), 'drawn')).toBeNull();
  });
  it('has the rest of the frames that are drawn on in one word', () => {
    expect(unfinished(begun)).toHaveLength(4);
    const whole = finished(begun, 'empty');
    expect(unfinished(whole)).toEqual([]);
    expect(whole.boxes[0]?.frames.slice(1, 4).map(({ comb }) => comb)).toEqual([blank, 'hhhheeeeeeee', 'hhhhbbbbbeee']);
    expect(finished(sheet(box(['..bbbnnnnnnn'])), 'undrawn').boxes[0]?.frames[0]?.comb).toBe('uubbbuuuuuuu');
  });
  it('has its brood counted where the stroke ends', () => {
    const done = sheet(box(['hhhhbbbbb...', 'e'.repeat(PARTS)]));
    expect(recorded(visit, done)).toEqual({ date: '2012-06-11', frames_of_brood: [0.5] });
    expect(isUnfinished(recorded(visit, done), done)).toBe(false);
    expect(recorded(visit, sheet(box(['hhhh........', 'e'.repeat(PARTS)])))).toEqual(visit);
  });
});
