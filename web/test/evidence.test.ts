import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { inUnit } from '../src/evidence/figures';
import { type Parameter, fitting, notModelled } from '../src/evidence/rows';

const parameter = (name: string, basis: Parameter['basis'], source: string): Parameter => ({
  section: 'forage', name, doc: ' Warmth to fly.', default: 1, unit: '°C', min: 0, max: 2, source, basis,
});
const ALL = [parameter('from', 'published', 'Winston 1987'), parameter('full', 'assumed', 'after Winston 1987'), parameter('hot', 'tuned', 'check 5')];
const found = (...wanted: Parameters<typeof fitting> extends [unknown, ...infer Rest] ? Rest : never) => fitting(ALL, ...wanted).map(({ name }) => name);

test('parameters are found by every word in any order, and by basis', () => {
  expect(found('', '')).toEqual(['from', 'full', 'hot']);
  expect(found('WINSTON fly', '')).toEqual(['from', 'full']);
  expect(found('winston', 'assumed')).toEqual(['full']);
  expect(found('winston check', '')).toEqual([]);
});

test('what is not modelled is the list of the README', () => {
  const sentences = (markdown: string) => notModelled(markdown).map(({ text }) => text);
  expect(sentences('# A\n\n## What it does not model\n\n- One `b`.\n- Two *c*.\n\nMore.\n\n## Next\n\n- Other\n')).toEqual(['What it does not model', 'One b.', 'Two c.']);
  expect(sentences(readFileSync(new URL('../../README.md', import.meta.url), 'utf8')).length).toBeGreaterThan(4);
});

test('shares are so many of a hundred, and no number has more figures than its words', () => {
  expect(inUnit(0.9193, { unit: '-', low: 0.8, high: 1 })).toBe('91.9 %');
  expect(inUnit(1.0004, { unit: '-', low: 0.999, high: 1.001 })).toBe('1');
  expect(inUnit(8.4217, { unit: '-', low: 6.66, high: 8.8 })).toBe('8.42');
  expect(inUnit(21, { unit: 'd', low: 19, high: 22 })).toBe('21');
  expect(inUnit(8458.3, { unit: 'bees', low: 8453, high: 8463 })).toBe('8,458');
});
