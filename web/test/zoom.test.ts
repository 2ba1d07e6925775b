import { describe, expect, it } from 'vitest';
import { LEAST_DAYS, Pinch, Wheel, zoomed } from '../src/strip/zoom';

const season = { first: 1000, days: 185 };
const window = { first: 1020, days: 112 };

describe('zooming the strip', () => {
  it('leaves the day under the finger where it is', () => {
    const share = ({ first, days }: typeof window, day: number) => (day + 0.5 - first) / days;
    for (const factor of [0.4, 0.7, 1.2]) {
      const next = zoomed(window, season, factor, 1060, 1060);
      expect(Math.abs(share(next, 1060) - share(window, 1060))).toBeLessThan(1 / next.days);
    }
  });

  it('keeps the chosen day in sight, and stays inside the season', () => {
    for (const factor of [0.01, 0.3, 0.9, 1.3, 50])
      for (const day of [1020, 1075, 1131])
        for (const anchor of [1020, 1131]) {
          const { first, days } = zoomed(window, season, factor, anchor, day);
          expect(first).toBeGreaterThanOrEqual(season.first);
          expect(first + days).toBeLessThanOrEqual(season.first + season.days);
          expect(day).toBeGreaterThanOrEqual(first);
          expect(day).toBeLessThan(first + days);
        }
    expect(zoomed(window, season, 0.01, 1060, 1060).days).toBe(LEAST_DAYS);
    expect(zoomed(window, season, 50, 1060, 1060)).toEqual(season);
  });

  it('shows a season shorter than the least whole', () => {
    expect(zoomed({ first: 5, days: 9 }, { first: 5, days: 9 }, 0.5, 8, 8)).toEqual({ first: 5, days: 9 });
  });

  it('adds up turns of a wheel that are too small for a day', () => {
    const wheel = new Wheel();
    expect(wheel.turn(-1, window, season, 1060, 1060)).toBeNull();
    let turns = 1;
    let next = null;
    for (; !next && turns < 20; turns += 1) next = wheel.turn(-1, window, season, 1060, 1060);
    expect(next?.days).toBe(111);
    expect(turns).toBeLessThan(10);
  });

  it('takes two fingers as far apart again for half the days, and the last finger for nothing', () => {
    const pinch = new Pinch();
    expect(pinch.press(1, 100, window)).toBe(false);
    expect(pinch.move(1, 100)).toBeNull();
    expect(pinch.press(2, 200, window)).toBe(true);
    expect(pinch.move(2, 300)).toEqual({ window, factor: 0.5, middle: 150 });
    pinch.release(2);
    expect(pinch.active).toBe(true);
    pinch.release(1);
    expect(pinch.active).toBe(false);
  });
});
