/** The drawing of the hive shows the cells of the model, cell by cell. */
import { describe, expect, it } from 'vitest';
import { counts, cutRows, face, fullest, keepingAlike, inWords, KINDS } from '../src/hive/cells';
import { drawComb } from '../src/hive/comb';
import { cut, pour } from '../src/hive/cut';
import { cellAt, middleOf, sizeOf } from '../src/hive/paint';
import type { HiveCells } from '../src/types';
import { SeasonView } from '../src/season';
import { dayNumber, isoDate } from '../src/calendar';
import { droneFrames, putIn } from '../src/trials/drone-frame';
import { catalogue } from '../src/wasm/sim_wasm.js';
import { explorer, run, scenario } from './door';

const made = explorer();
const plan = scenario('wet-spring.toml');
const date = '2012-06-10';
const season = new SeasonView(run(made, 'plan', plan), catalogue());
const hive = made.cells(JSON.stringify(plan), date);
const at = (column: string) => season.at(column, dayNumber(date));

describe('the cells', () => {
  it('are as many as the season counts', () => {
    const all = hive.frames.map(({ contents }) => counts(contents));
    const sum = (kind: (typeof KINDS)[number]) => all.reduce((total, frame) => total + frame[kind], 0);
    // Each day of age is a whole number of cells in the drawing.
    expect(Math.abs(sum('capped') - at('capped_worker'))).toBeLessThan(8);
    const drones = at('drone_brood') - sum('drone');
    expect(Math.abs(sum('egg') + sum('larva') - at('eggs') - at('open_larvae') - drones)).toBeLessThan(16);
  });

  it('lie on frames of two boxes, the fullest among them in the middle of the lower', () => {
    expect(hive.frames).toHaveLength(20);
    const best = hive.frames[fullest(hive)];
    expect(best?.inBox).toBe(0);
    expect([3, 4, 5, 6]).toContain(best?.place);
    for (const frame of hive.frames) expect(frame.contents).toHaveLength(2 * frame.columns * frame.rows);
  });

  it('are said in words', () => {
    const [outermost] = hive.frames.slice(10);
    expect(outermost && inWords(outermost)).toBe('not drawn');
    expect(inWords(hive.frames[fullest(hive)]!)).toMatch(/capped brood on /);
  });

  it('are found again where they are drawn', () => {
    const [frame] = hive.frames;
    if (!frame) throw new Error('a frame');
    const { width, height } = sizeOf(frame, 7);
    for (let index = 0; index < frame.columns * frame.rows; index += 1) {
      const { x, y } = middleOf(frame, index, 7);
      expect(cellAt(frame, x, y, 7)).toBe(index);
      expect(x > 0 && x < width && y > 0 && y < height).toBe(true);
    }
  });
});

describe('the cut', () => {
  it('has the boxes of the day', () => {
    expect(cut(hive, at('frames_of_bees'), 16)).toHaveLength(2);
    expect(cut(made.cells(JSON.stringify(plan), '2012-06-03'), 4, 16)).toHaveLength(1);
  });

  it('is as deep as the comb is drawn, and shows brood where there is brood', () => {
    const best = hive.frames[fullest(hive)];
    if (!best) throw new Error('a frame');
    const [left, right] = cutRows(best);
    expect(left).toHaveLength(best.rows);
    expect(right.some(({ kind }) => kind === 'capped')).toBe(true);
    expect(Math.min(...left.map(({ drawn }) => drawn))).toBeGreaterThan(0.9);
    const undrawn = hive.frames.find(({ contents }) => contents.every((content) => content === 0));
    if (!undrawn) throw new Error('an undrawn frame');
    expect(cutRows(undrawn)[0].every(({ drawn }) => drawn === 0)).toBe(true);
    expect(drawComb(cutRows(undrawn), 50, 0, 100, 10).outline).toBe('');
    expect(face(best, 0)).toHaveLength(face(best, 1).length);
  });

  it('takes a frame that holds the same for the same', () => {
    const again = structuredClone(hive);
    const one = again.frames[3];
    if (!one) throw new Error('a frame');
    one.contents[9] = (one.contents[9] ?? 0) + 1;
    const kept = keepingAlike(hive, again);
    expect(kept.frames.map((frame, at) => frame === hive.frames[at])).toEqual(hive.frames.map((_, at) => at !== 3));
    expect(kept.frames[3]).toBe(one);
    expect(keepingAlike(null, again)).toEqual(again);
  });

  const seams = (of: HiveCells, frames: number, celsius: number) => cut(of, frames, celsius).map((box) => box.frames.map(({ bees }) => bees));
  const sum = (numbers: number[]) => numbers.reduce((all, one) => all + one, 0);

  it('has as many bees in the seams as there are, warm or cold', () => {
    for (const celsius of [-5, 12, 25]) for (const frames of [0.2, 5, 13, 20]) expect(sum(seams(hive, frames, celsius).flat())).toBeCloseTo(frames, 5);
  });

  describe('in winter', () => {
    const winter = scenario('overwintered.toml');
    const at = (day: string) => made.cells(JSON.stringify(winter), day);
    /** The seams that hold nine in ten of the bees of a box, from the fullest down. */
    const fullSeams = (bees: number[]) => {
      const order = bees.map((_, i) => i).toSorted((a, b) => (bees[b] ?? 0) - (bees[a] ?? 0));
      let held = 0;
      return order.filter((i) => (held < 0.9 * sum(bees) ? ((held += bees[i] ?? 0), true) : false)).toSorted((a, b) => a - b);
    };

    it.each(['2013-12-28', '2014-03-01'])('has them in one cluster on %s, in seams beside one another', (day) => {
      const boxes = seams(at(day), 5, 2);
      const most = boxes.toSorted((a, b) => sum(b) - sum(a))[0] ?? [];
      const full = fullSeams(most);
      expect(full.length).toBeLessThanOrEqual(8);
      expect((full.at(-1) ?? 0) - (full[0] ?? 0)).toBe(full.length - 1);
      // Above the stores, away from the cluster, there are none to be seen.
      expect(sum(boxes.at(-1) ?? [])).toBeLessThan(0.1);
    });

    it('has them all over the combs when it is warm', () => {
      const warm = seams(at('2014-06-20'), 14, 20);
      for (const box of warm) expect(sum(box)).toBeGreaterThan(0.5);
    });
  });

  it('pours no more than there is room for', () => {
    expect(pour(10, [1, 2], [1, 1])).toEqual([1, 2]);
    expect(pour(2, [3, 3], [1, 3])).toEqual([0.5, 1.5]);
    expect(pour(2, [0.1, 3], [1, 1])[1]).toBeCloseTo(1.9, 6);
  });
});

describe('a drone frame', () => {
  const trapped = scenario('drone-frame-on-time.toml');
  const [given = ''] = droneFrames(trapped);
  const on = (day: string) => explorer().cells(JSON.stringify(trapped), day).frames.filter((frame) => frame.forDrones);

  it('is in by the evening of the day on which it is given, and said to be put in then', () => {
    expect(on(isoDate(dayNumber(given) - 1))).toHaveLength(0);
    const [frame] = on(given);
    if (!frame) throw new Error('There is no drone frame.');
    expect(putIn(trapped, given, frame)).toBe(true);
    expect(putIn(trapped, isoDate(dayNumber(given) + 1), frame)).toBe(false);
    const elsewhere = { ...trapped, move: [{ date: given, give_frame: { comb: 'drone-frame', at: { box: 1, place: 2 } } }] } as typeof trapped;
    expect(putIn(elsewhere, given, { inBox: 0, place: 1 })).toBe(true);
    expect(putIn(elsewhere, given, { inBox: 0, place: 2 })).toBe(false);
  });
});
