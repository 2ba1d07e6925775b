import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { visitsTypes } from '../scripts/types.mjs';
import type { Visit } from '../src/visits';
import { type Expected, likelyIn } from '../src/visit/expected';
import { bands, BLANK, boxFigure, countedEmpty, drawn, drawnFurther, drawnToTheFoot, fitted, heldBack, isBlank, nudged, PARTS, recorded, rest, type Sheet, type SheetBox, stroke, untouchedIn } from '../src/visit/sheet';

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
});

describe('a stroke', () => {
  it('goes on from where the drawing ends', () => {
    const honey = stroke(blank, 'honey', 1, 2);
    expect(honey).toBe('hhh.........');
    expect(stroke(honey, 'brood', 5, 8)).toBe('hhhbbbbbb...');
  });
  it('moves the lower edge of the last band of the same word, up and down', () => {
    expect(stroke('hhhbbbbbb...', 'brood', 8, 5)).toBe('hhhbbb......');
    expect(stroke('hhhbbb......', 'brood', 9, 9)).toBe('hhhbbbbbbb..');
    expect(stroke('hhhbbb......', 'brood', 4, 0)).toBe('hhhb........');
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
    expect(rest('hhhb........', 'empty')).toBe('hhhbeeeeeeee');
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
    expect(heldBack(sheet(box([done, done]), box([blank, blank])))).toEqual([{ box: 1, what: ['brood', 'drawn'], frames: 2, untouched: true }]);
    expect(heldBack(sheet(box([done, done]), box([done, blank])))).toEqual([{ box: 1, what: ['brood', 'drawn'], frames: 1, untouched: false }]);
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

  it('keeps what was drawn in it', () => {
    const half = sheet(box([done], [6]), box([done]));
    expect(heldBack(half)).toEqual([{ box: 1, what: ['bees'], frames: 1, untouched: true }]);
    expect(countedEmpty(half, { box: 1, what: ['bees'], frames: 1, untouched: true }).boxes[1]?.frames[0]).toEqual({ comb: done, bees: 0 });
  });
});
