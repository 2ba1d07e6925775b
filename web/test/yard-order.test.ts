import { describe, expect, it } from 'vitest';
import { dayNumber, plusDays } from '../src/calendar';
import { edited } from '../src/plan';
import type { Scenario } from '../src/scenario';
import type { SeasonView } from '../src/season';
import { yard } from '../src/text/en/yard';
import { newHive } from '../src/yard/hive';
import { deadSince, dueIn, type Entry, inOrder, spread } from '../src/yard/order';
import { scenario } from './door';

const plan = scenario('wet-spring.toml');
const first = dayNumber(plan.start.date);
const DAY = first + 42;

/** A hive of this name with so many bees on each day, on the forty-third. */
function entry(name: string, bees: (day: number) => number, of: Scenario = plan): Entry {
  const view = { first, last: first + 180, at: (_: string, day: number) => bees(day), outcome: { events: [] } } as unknown as SeasonView;
  return { hive: { ...newHive(of, 0), name }, name, at: { view, day: DAY } };
}

describe('the hives of the yard', () => {
  const strong = entry('Hive 10', () => 20_000);
  const dead = entry('Hive 9', (day) => Math.max(0, 10 - day + first));
  const light = entry(
    'Hive 2',
    () => 8000,
    edited(plan, (draft) => {
      draft.move = [{ date: plusDays(draft.start.date, 43), add_box: {} }];
    }),
  );

  it('know since when no bees are left', () => {
    expect(strong.at && deadSince(strong.at.view, DAY)).toBeNull();
    expect(dead.at && deadSince(dead.at.view, DAY)).toBe(first + 10);
  });

  it('have what comes next', () => {
    expect(dueIn(light)?.day).toBe(DAY + 1);
    expect(dueIn({ ...light, at: null })).toBeNull();
  });

  it('stand in order of name, of bees and of what is due, those without a season last', () => {
    const waiting: Entry = { ...strong, name: 'Hive 1', at: null };
    const all = [waiting, strong, dead, light];
    const names = (order: Parameters<typeof inOrder>[1]) => inOrder(all, order).map(({ name }) => name);
    expect(names('added')).toEqual(['Hive 1', 'Hive 10', 'Hive 9', 'Hive 2']);
    expect(names('name')).toEqual(['Hive 1', 'Hive 2', 'Hive 9', 'Hive 10']);
    expect(names('bees').slice(-2)).toEqual(['Hive 9', 'Hive 1']);
    expect(names('due')[0]).toBe('Hive 2');
    expect(names('due').at(-1)).toBe('Hive 1');
  });

  it('are spread from the fewest bees to the most, the dead ones aside', () => {
    expect(spread([strong, dead, light])).toBeNull();
    expect(spread([strong, strong, light, dead])).toEqual({ lost: 1, least: 8000, middle: 20_000, most: 20_000 });
  });

  it('are told apart from those that are lost', () => {
    expect(yard.spread(1, '8,000', '9,000', '10,000')).toBe('One is lost. Bees in the others: 8,000 to 10,000; in the middle of them 9,000.');
    expect(yard.spread(0, '8,000', '9,000', '10,000')).toBe('Bees in them: 8,000 to 10,000; in the middle of them 9,000.');
  });
});
