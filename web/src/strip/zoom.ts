/**
 * Fewer or more days on the strip: the day under the finger stays where it is, and the chosen day stays in sight.
 */

/** Days from `first` on. */
export interface Days {
  first: number;
  days: number;
}

/** Fewer days at once say nothing that the figures of the day do not. */
export const LEAST_DAYS = 14;
/** What one press does to the number of days. */
export const STEP = 1.5;
/** What a wheel does, for each pixel that it is turned: a notch of a mouse is about 100. */
const TURN = 0.002;

const within = (value: number, least: number, most: number): number => Math.max(least, Math.min(value, most));

/** The window with `factor` times as many days, around `anchor`; `day` is the chosen one. */
export function zoomed(window: Days, season: Days, factor: number, anchor: number, day: number): Days {
  const days = within(Math.round(window.days * factor), Math.min(LEAST_DAYS, season.days), season.days);
  const share = (anchor + 0.5 - window.first) / window.days;
  const around = Math.round(anchor + 0.5 - share * days);
  return { first: within(within(around, day - days + 1, day), season.first, season.first + season.days - days), days };
}

/** Turns of a wheel too small for a day are kept until they come to one. */
export class Wheel {
  #turned = 0;

  /** The window after this turn; `null`: still the same. */
  turn(pixels: number, window: Days, season: Days, anchor: number, day: number): Days | null {
    this.#turned += pixels;
    const next = zoomed(window, season, Math.exp(this.#turned * TURN), anchor, day);
    const atEnd = next.days === (pixels < 0 ? Math.min(LEAST_DAYS, season.days) : season.days);
    if (next.days === window.days && !atEnd) return null;
    this.#turned = 0;
    return next;
  }
}

/** Two fingers on the strip: how far apart they were, and on what window. */
export class Pinch {
  #at = new Map<number, number>();
  #start: { apart: number; middle: number; window: Days } | null = null;

  get active(): boolean {
    return this.#start !== null;
  }

  /** A finger comes down; with the second the pinch begins. `true`: it did. */
  press(pointer: number, x: number, window: Days): boolean {
    this.#at.set(pointer, x);
    if (this.#at.size !== 2 || this.#start) return false;
    const [a = 0, b = 0] = this.#at.values();
    // Fingers one above the other would give any factor.
    this.#start = { apart: Math.max(20, Math.abs(a - b)), middle: (a + b) / 2, window };
    return true;
  }

  /** A finger moves; the window that was, the factor, and the place between the fingers when they came down. */
  move(pointer: number, x: number): { window: Days; factor: number; middle: number } | null {
    if (!this.#at.has(pointer)) return null;
    this.#at.set(pointer, x);
    if (!this.#start) return null;
    const [a = 0, b = 0] = this.#at.values();
    const { apart, middle, window } = this.#start;
    return { window, factor: apart / Math.max(20, Math.abs(a - b)), middle };
  }

  /** A finger goes; the pinch is over when all are gone, so that the last one moves nothing. */
  release(pointer: number): void {
    this.#at.delete(pointer);
    if (this.#at.size === 0) this.#start = null;
  }
}
