/** The plan as it was before each change, so that changes can be taken back. */
import type { Scenario } from './scenario';

/** Changes that follow each other faster are taken back together, ms. */
export const ONE_CHANGE_MS = 400;
const MOST_KEPT = 200;

export class Past {
  canUndo = $state(false);

  #plans: Scenario[] = [];
  #gestures = 0;
  #last = { gesture: '', at: Number.NEGATIVE_INFINITY };

  /** Keeps the plan before a change. All changes of one `gesture`, such as a drag, are taken back together. */
  keep(before: Scenario | null, gesture = ''): void {
    const now = performance.now();
    const same = gesture === this.#last.gesture && (gesture !== '' || now - this.#last.at < ONE_CHANGE_MS);
    this.#last = { gesture, at: now };
    if (same || !before) return;
    this.#plans = [...this.#plans.slice(1 - MOST_KEPT), before];
    this.canUndo = true;
  }

  /** The plan before the last change, which is the last one no more. */
  takeBack(): Scenario | null {
    const before = this.#plans.pop() ?? null;
    this.canUndo = this.#plans.length > 0;
    this.#endChange();
    return before;
  }

  /** Another hive has a past of its own. */
  forget(): void {
    this.#plans = [];
    this.canUndo = false;
    this.#endChange();
  }

  /** A name for a drag, or for a change that is taken back by itself. */
  newGesture(): string {
    this.#gestures += 1;
    return `gesture ${this.#gestures}`;
  }

  /** What changes next is another change, however soon it comes. */
  #endChange(): void {
    this.#last = { gesture: '', at: Number.NEGATIVE_INFINITY };
  }
}
