/** Which days of the season are on the strip: as many as usual, or as somebody chose. They stand still until the chosen day leaves them. */
import type { SeasonView } from '../season';
import { windowAround, windowLength } from './layout';
import { type Days, zoomed } from './zoom';

interface Given {
  season: SeasonView | null;
  /** The chosen day. */
  day: number;
  narrow: boolean;
  /** Paper has room for the whole season. */
  onPaper: boolean;
}

export class DaysShown {
  /** As many as somebody wants to see at once; `null`: as many as usual. */
  #wanted = $state<number | null>(null);
  #start = $state(0);
  #given: () => Given;

  readonly #most = $derived.by(() => {
    const { narrow, onPaper } = this.#given();
    return onPaper ? Number.POSITIVE_INFINITY : (this.#wanted ?? windowLength(narrow));
  });
  readonly #around = $derived.by(() => {
    const { season, day } = this.#given();
    return season && windowAround(day, season, this.#start, this.#most, this.#wanted === null ? undefined : 1);
  });
  readonly #first = $derived(this.#around?.first);
  readonly #days = $derived(this.#around?.days);
  /** The days themselves; `null` while there is no season. The same as before where a changed season has the same days. */
  readonly window: Days | null = $derived(this.#first === undefined || this.#days === undefined ? null : { first: this.#first, days: this.#days });

  constructor(given: () => Given) {
    this.#given = given;
    $effect(() => {
      if (this.window && this.window.days === this.#most) this.#start = this.window.first;
    });
  }

  /** Whether the season has more days. */
  get partial(): boolean {
    const { season } = this.#given();
    return season !== null && this.window !== null && this.window.days < season.days;
  }

  /** Whether somebody chose how many there are. */
  get chosen(): boolean {
    return this.#wanted !== null;
  }

  /** Shows these days. */
  look({ first, days }: Days): void {
    const { season } = this.#given();
    if (!season) return;
    this.#wanted = days < season.days ? days : Number.POSITIVE_INFINITY;
    this.#start = first;
  }

  /** So many times the days, around the chosen one. */
  zoom(factor: number): void {
    const { season, day } = this.#given();
    if (season && this.window) this.look(zoomed(this.window, season, factor, day, day));
  }

  /** All days of the season, or as many as usual where all are shown. */
  toggleWhole(): void {
    this.#wanted = this.partial ? Number.POSITIVE_INFINITY : null;
  }
}
