import { expect, it } from 'vitest';
import { steady } from '../src/strip/steady';

it('keeps what says the same, part by part', () => {
  const steadied = steady<{ rows: number[]; names: string[] }>();
  const first = steadied({ rows: [1, 2], names: ['bees'] });
  expect(steadied({ rows: [1, 2], names: ['bees'] })).toBe(first);
  const next = steadied({ rows: [1, 3], names: ['bees'] });
  expect(next).toEqual({ rows: [1, 3], names: ['bees'] });
  expect(next.names).toBe(first.names);
  expect(steadied({ rows: [1, 2], names: ['bees'] })).toEqual(first);
});
