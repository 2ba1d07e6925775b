import { afterEach, describe, expect, it, vi } from 'vitest';
import { ONE_CHANGE_MS, Past } from '../src/past.svelte';
import type { Scenario } from '../src/scenario';
import { scenario } from './door';

const plans: Scenario[] = Array.from({ length: 4 }, (_, i) => ({ ...scenario('wet-spring.toml'), name: `plan ${i}` }));
const [first = null, second = null, third = null] = plans;

/** A clock that moves when it is told. */
function clock(): (ms: number) => void {
  let now = 1000;
  vi.spyOn(performance, 'now').mockImplementation(() => now);
  return (ms) => {
    now += ms;
  };
}
afterEach(() => {
  vi.restoreAllMocks();
});

describe('the past of a plan', () => {
  it('is taken back change by change', () => {
    const pass = clock();
    const past = new Past();
    expect(past.canUndo).toBe(false);
    past.keep(first);
    pass(ONE_CHANGE_MS);
    past.keep(second);
    expect(past.canUndo).toBe(true);
    expect(past.takeBack()).toBe(second);
    expect(past.takeBack()).toBe(first);
    expect(past.canUndo).toBe(false);
    expect(past.takeBack()).toBeNull();
  });

  it('holds changes that follow each other fast for one', () => {
    const pass = clock();
    const past = new Past();
    past.keep(first);
    pass(ONE_CHANGE_MS - 1);
    past.keep(second);
    expect(past.takeBack()).toBe(first);
    expect(past.canUndo).toBe(false);
  });

  it('holds a gesture for one, however long it takes, and gestures apart, however soon they come', () => {
    const pass = clock();
    const past = new Past();
    const [one, other] = [past.newGesture(), past.newGesture()];
    expect(one).not.toBe(other);
    past.keep(first, one);
    pass(10 * ONE_CHANGE_MS);
    past.keep(second, one);
    past.keep(third, other);
    expect(past.takeBack()).toBe(third);
    expect(past.takeBack()).toBe(first);
    expect(past.canUndo).toBe(false);
  });

  it('begins anew after a change was taken back, and with another hive', () => {
    clock();
    const past = new Past();
    past.keep(first);
    past.takeBack();
    past.keep(second);
    expect(past.takeBack()).toBe(second);
    past.keep(first);
    past.forget();
    expect(past.canUndo).toBe(false);
    past.keep(third);
    expect(past.takeBack()).toBe(third);
  });

  it('has nothing from before there was a plan', () => {
    const past = new Past();
    past.keep(null);
    expect(past.canUndo).toBe(false);
  });

  it('forgets the oldest of very many changes', () => {
    const pass = clock();
    const past = new Past();
    for (let i = 0; i < 250; i += 1) {
      past.keep(i === 0 ? first : second);
      pass(ONE_CHANGE_MS);
    }
    let count = 0;
    for (let before = past.takeBack(); before; before = past.takeBack(), count += 1) expect(before).not.toBe(first);
    expect(count).toBe(200);
  });
});
