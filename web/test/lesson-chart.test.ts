import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { apart, chartOf, pointAt } from '../src/lessons/chart';
import { keepProgress, keptProgress } from '../src/lessons/kept';
import { LESSONS } from '../src/lessons/lessons';

const { drawn } = LESSONS[0];

describe('the chart of a lesson', () => {
  it.each([
    [288, 270, 12.5],
    [760, 448, 12.5],
    [1100, 600, 17.5],
  ])('has room for its figures at %i by %i px', (width, height, size) => {
    for (const { drawn } of LESSONS) {
      const chart = chartOf(width, height, size, drawn);
      expect(chart.left).toBeLessThan(width * 0.3);
      expect(chart.right).toBeLessThan(width);
      expect(chart.right - chart.left).toBeGreaterThan(width * 0.6);
      expect(chart.bottom + size).toBeLessThan(height);
      // Dates do not touch: one of them is at most as wide as this.
      expect((chart.every * (chart.right - chart.left)) / drawn.points).toBeGreaterThan('30 September'.length * size * 0.54);
    }
  });

  it('finds the point under a finger where the point is drawn', () => {
    const chart = chartOf(360, 270, 12.5, drawn);
    for (let index = 0; index < drawn.points; index += 1) {
      const x = chart.x(drawn.from + drawn.every * (index + 1));
      expect(pointAt(chart, drawn, x, chart.y(9_500))).toEqual({ index, value: 9_500 });
    }
    // Beyond the edges it is the point at the edge.
    expect(pointAt(chart, drawn, -50, -50)).toEqual({ index: 0, value: drawn.top });
    expect(pointAt(chart, drawn, 999, 999)).toEqual({ index: drawn.points - 1, value: 0 });
  });

  it('keeps names apart in their order, and inside', () => {
    expect(apart([50, 52, 10], 20, 0, 100)).toEqual([50, 70, 10]);
    expect(apart([95, 96, 97], 20, 0, 100)).toEqual([60, 80, 100]);
    expect(apart([-5], 20, 0, 100)).toEqual([0]);
  });
});

describe('what was drawn', () => {
  const kept = new Map<string, string>();
  const [lesson] = LESSONS;
  beforeEach(() => {
    vi.stubGlobal('sessionStorage', { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => kept.set(key, value) });
  });
  afterEach(() => {
    kept.clear();
    vi.unstubAllGlobals();
  });

  it('is kept, with how far the lesson has come', () => {
    const line = Array.from({ length: lesson.drawn.points }, (_, i) => 1000 * i);
    keepProgress(lesson, { line, seen: true, altered: true });
    expect(keptProgress(lesson)).toEqual({ line, seen: true, altered: true });
    expect(keptProgress(LESSONS[1]).seen).toBe(false);
  });

  it('begins anew where what was kept is no line of this lesson', () => {
    const fresh = { line: Array(lesson.drawn.points).fill(null), seen: false, altered: false };
    for (const text of ['', 'no', '{}', '{"line":[1]}', JSON.stringify({ line: Array(lesson.drawn.points).fill(-1) }), JSON.stringify({ line: Array(lesson.drawn.points).fill('x'), seen: true })]) {
      kept.set(`combcast lesson ${lesson.name}`, text);
      expect(keptProgress(lesson)).toEqual(fresh);
    }
    // Seen needs a whole line.
    keepProgress(lesson, { ...fresh, seen: true, altered: true });
    expect(keptProgress(lesson)).toEqual(fresh);
  });

  it('is there for the moment where nothing can be kept', () => {
    vi.stubGlobal('sessionStorage', undefined);
    expect(() => keepProgress(lesson, keptProgress(lesson))).not.toThrow();
  });
});
