/** What a hand does on the strip: a drag chooses the day, two fingers or the wheel with a key show fewer days or more. */
import { type DayScale, dayAt } from '../scales';
import { type Days, Pinch, Wheel, zoomed } from './zoom';

/** The strip under the hand. */
export interface Held {
  readonly scale: DayScale;
  readonly season: Days | null;
  /** The chosen day. */
  readonly day: number;
  goTo(day: number): void;
  look(days: Days): void;
}

/** From the left edge of the strip, px. */
const placeOf = (event: MouseEvent): number => event.clientX - (event.currentTarget as HTMLElement).getBoundingClientRect().left;
/** What a mouse that counts lines of text turns the wheel by, px. */
const LINE = 33;

export class Hand {
  dragging = $state(false);

  #held: Held;
  #wheel = new Wheel();
  #pinch = new Pinch();
  /** The day before the finger came down: a second finger gives it back. */
  #dayBefore = 0;

  constructor(held: Held) {
    this.#held = held;
  }

  press(event: PointerEvent): void {
    if (event.button !== 0) return;
    const { scale, day } = this.#held;
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    if (this.#pinch.press(event.pointerId, placeOf(event), { first: scale.first, days: scale.days })) {
      this.dragging = false;
      this.#held.goTo(this.#dayBefore);
    } else if (!this.#pinch.active) {
      this.dragging = true;
      this.#dayBefore = day;
      this.#follow(event);
    }
  }

  move(event: PointerEvent): void {
    const pinched = this.#pinch.move(event.pointerId, placeOf(event));
    const { scale, season, day } = this.#held;
    if (pinched && season) {
      const { window, factor, middle } = pinched;
      this.#held.look(zoomed(window, season, factor, dayAt({ ...scale, ...window }, middle), day));
    } else if (this.dragging) this.#follow(event);
  }

  release(event: PointerEvent): void {
    this.#pinch.release(event.pointerId);
    this.dragging = false;
  }

  turn(event: WheelEvent): void {
    const { scale, season, day } = this.#held;
    // Without the key the wheel is the page's; fingers on a touchpad come with it.
    if (!season || !(event.ctrlKey || event.metaKey)) return;
    event.preventDefault();
    const pixels = event.deltaMode === event.DOM_DELTA_PIXEL ? event.deltaY : event.deltaY * LINE;
    const next = this.#wheel.turn(pixels, scale, season, dayAt(scale, placeOf(event)), day);
    if (next) this.#held.look(next);
  }

  #follow(event: PointerEvent): void {
    this.#held.goTo(dayAt(this.#held.scale, placeOf(event)));
  }
}
