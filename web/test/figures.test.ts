import { describe, expect, it } from 'vitest';
import { dayNumber, isoDate, plusDays, spokenDate, weekdayDate, weekdayDateFrom } from '../src/calendar';
import { dayAt, dayX, lanes, linePath, runs, ticks, ticksWithin } from '../src/scales';
import { windowAround } from '../src/strip/layout';
import { en } from '../src/text/en';
import { lessons } from '../src/text/en/lessons';
import { beeCount, figure, metric, shown, weighed, withUnit } from '../src/units';
import { halves } from '../src/words';

describe('dates', () => {
  it('go to day numbers and back', () => {
    expect(dayNumber('1970-01-02')).toBe(1);
    for (const iso of ['2012-02-29', '1999-12-31', '2026-04-30']) expect(isoDate(dayNumber(iso))).toBe(iso);
    expect(plusDays('2012-02-28', 2)).toBe('2012-03-01');
    for (const no of ['', '2013-02-29', '2013-2-1', 'today']) expect(dayNumber(no)).toBeNaN();
  });

  it('are written as in the yard', () => {
    const day = dayNumber('2026-06-10');
    expect(weekdayDate(day)).toBe('Wed 10 June');
    expect(spokenDate(day)).toBe('Wed 10 June 2026');
    expect(weekdayDateFrom(day, day - 100)).toBe('Wed 10 June');
    expect(weekdayDateFrom(day, day - 300)).toBe('Wed 10 June 2026');
  });
});

describe('scales', () => {
  const scale = { first: 100, days: 50, left: 20, width: 500 };
  it('find the day under each place', () => {
    for (let day = 100; day < 150; day += 1) expect(dayAt(scale, dayX(scale, day))).toBe(day);
    expect(dayAt(scale, -1000)).toBe(100);
    expect(dayAt(scale, 1000)).toBe(149);
  });

  it('have round ticks that reach the top', () => {
    expect(ticks(34_500, 2)).toEqual([0, 20_000, 40_000]);
    expect(ticks(9.2, 2)).toEqual([0, 5, 10]);
    expect(ticks(20, 1)).toEqual([0, 20]);
    expect(ticks(0, 2)).toEqual([0, 1]);
  });

  it('of an axis are finer where only 0 would lie within it', () => {
    expect(ticksWithin(34_500, 35_900, 2)).toEqual([0, 20_000]);
    expect(ticksWithin(47_000, 48_900, 2)).toEqual([0, 20_000, 40_000]);
    expect(ticksWithin(19, 19.8, 1)).toEqual([0, 10]);
    for (let most = 0.3; most < 90_000; most *= 1.07) for (const parts of [1, 2]) expect(ticksWithin(most, most * 1.02, parts).length).toBeGreaterThan(1);
  });

  it('join equal neighbours', () => {
    expect(runs([1, 1, 2, 2, 2, 1])).toEqual([
      { value: 1, start: 0, end: 2 },
      { value: 2, start: 2, end: 5 },
      { value: 1, start: 5, end: 6 },
    ]);
    expect(runs([1, 1, 2], 1, 2)).toEqual([{ value: 1, start: 1, end: 2 }]);
  });

  it('put labels where they do not touch', () => {
    const placed = lanes(
      [
        { x: 0, width: 50 },
        { x: 40, width: 50 },
        { x: 45, width: 50 },
        { x: 60, width: 10 },
      ],
      2,
      5,
    );
    expect(placed).toEqual([0, 1, null, 0]);
  });

  it('draw a path', () => {
    expect(linePath([[0, 1], [2.345, 3]])).toBe('M0 1L2.3 3');
  });

  it('keep the window still until the day leaves it', () => {
    const season = { first: 0, days: 365 };
    expect(windowAround(50, season, 0, 100)).toEqual({ first: 0, days: 100 });
    expect(windowAround(99, season, 0, 100)).toEqual({ first: 0, days: 100 });
    expect(windowAround(100, season, 0, 100)).toEqual({ first: 67, days: 100 });
    expect(windowAround(364, season, 0, 100)).toEqual({ first: 265, days: 100 });
    expect(windowAround(5, { first: 0, days: 110 }, 0, 100)).toEqual({ first: 0, days: 110 });
  });
});

describe('figures', () => {
  it('go to US units and back', () => {
    expect(withUnit(25.4, 'rain', 'us')).toBe('1.00 in');
    expect(withUnit(100, 'temperature', 'us')).toBe('212 °F');
    for (const quantity of ['temperature', 'rain', 'stores', 'syrup', 'warmthStep'] as const) {
      expect(metric(shown(12.3, quantity, 'us'), quantity, 'us')).toBeCloseTo(12.3, 9);
    }
  });

  it('are rounded as they are counted', () => {
    expect([9882, 447, 0, 13, 27_812, 29_560].map(beeCount)).toEqual(['9,900', '450', '0', '13', '28,000', '29,500']);
    expect([figure(-1234.5, 1), figure(-0.001)]).toEqual(['−1,234.5', '0']);
    expect([halves(0.2), halves(0.5), halves(2.4), halves(7)]).toEqual(['0', '½', '2½', '7']);
  });
});

describe('texts with weights', () => {
  it('say them in the units of the page, as somebody says them', () => {
    const { heavy, stings } = en.cautions;
    expect(weighed(heavy, 'metric')).toContain('can weigh 40 kg:');
    expect(weighed(heavy, 'us')).toContain('can weigh 90 lb:');
    expect(weighed(stings, 'us')).toBe(stings);
    const { question, change } = lessons.words['the-dip'];
    expect(weighed(question, 'us')).toContain('package of 3 lb');
    expect(weighed(question, 'metric')).toContain('package of 1.4 kg');
    expect(weighed(change, 'metric')).toBe('0.9 kg of bees in place of 1.4 kg');
    expect(weighed(change, 'us')).toBe('2 lb of bees in place of 3 lb');
  });
});
