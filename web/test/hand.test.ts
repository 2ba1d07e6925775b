import { describe, expect, it } from 'vitest';
import type { DayScale } from '../src/scales';
import { Hand } from '../src/strip/hand.svelte';
import type { Days } from '../src/strip/zoom';

/** A strip of 100 days, ten pixels each, 50 from the window's edge. */
function strip() {
  const went: number[] = [];
  const looked: Days[] = [];
  const held = {
    scale: { first: 1000, days: 100, left: 0, width: 1000 } satisfies DayScale,
    season: { first: 1000, days: 100 },
    day: 1042,
    goTo: (day: number) => void went.push(day),
    look: (days: Days) => void looked.push(days),
  };
  const captured: number[] = [];
  const currentTarget = { getBoundingClientRect: () => ({ left: 50 }), setPointerCapture: (id: number) => void captured.push(id) };
  const pointer = (x: number, pointerId = 1, button = 0) => ({ clientX: 50 + x, pointerId, button, currentTarget }) as unknown as PointerEvent;
  let prevented = 0;
  const wheel = (deltaY: number, more: Partial<WheelEvent> = {}) =>
    ({ clientX: 550, deltaY, deltaMode: 0, DOM_DELTA_PIXEL: 0, ctrlKey: true, metaKey: false, currentTarget, preventDefault: () => void (prevented += 1), ...more }) as unknown as WheelEvent;
  return { hand: new Hand(held), went, looked, captured, pointer, wheel, prevented: () => prevented };
}

describe('a hand on the strip', () => {
  it('chooses the day under it, as long as it is down', () => {
    const { hand, went, captured, pointer } = strip();
    hand.move(pointer(300));
    hand.press(pointer(305));
    expect(hand.dragging).toBe(true);
    hand.move(pointer(417));
    hand.move(pointer(5000));
    hand.release(pointer(5000));
    hand.move(pointer(100));
    expect(went).toEqual([1030, 1041, 1099]);
    expect(captured).toEqual([1]);
    expect(hand.dragging).toBe(false);
  });

  it('does nothing with another button', () => {
    const { hand, went, pointer } = strip();
    hand.press(pointer(305, 1, 2));
    expect([went, hand.dragging]).toEqual([[], false]);
  });

  it('with two fingers gives the day back that the first one chose, and shows fewer days', () => {
    const { hand, went, looked, pointer } = strip();
    hand.press(pointer(400, 1));
    hand.press(pointer(500, 2));
    expect(went).toEqual([1040, 1042]);
    expect(hand.dragging).toBe(false);
    hand.move(pointer(600, 2));
    expect(looked.at(-1)?.days).toBe(50);
    // The last finger chooses no day.
    hand.release(pointer(600, 2));
    hand.move(pointer(10, 1));
    hand.release(pointer(10, 1));
    expect(went).toEqual([1040, 1042]);
  });

  it('turns the wheel with a key only', () => {
    const { hand, looked, wheel, prevented } = strip();
    hand.turn(wheel(-200, { ctrlKey: false }));
    expect([looked.length, prevented()]).toEqual([0, 0]);
    hand.turn(wheel(-200));
    expect(prevented()).toBe(1);
    expect(looked[0]?.days).toBeLessThan(100);
    expect(looked[0]?.days).toBeGreaterThan(50);
    // A wheel that counts lines goes as far.
    hand.turn(wheel(-200 / 33, { deltaMode: 1 }));
    expect(looked[1]).toEqual(looked[0]);
  });
});
