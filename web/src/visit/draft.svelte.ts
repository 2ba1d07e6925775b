/**
 * The visit sheet of one day of the open hive. What it shows is what the yard keeps: every stroke is handed over before
 * anything follows from it.
 */
import { isoDate } from '../calendar';
import type { Session } from '../session.svelte';
import type { Visit } from '../visits';
import type { DrawnVisit } from '../yard/hive';
import { fitted, isBlank, recorded, type Sheet, sheetFor } from './sheet';

const MOST_UNDONE = 200;

export class Draft {
  #session: Session;
  /** The visits of the hive as they were before each change, and the day that was shown. */
  #past = $state.raw<{ hive: string; day: number; visits: readonly DrawnVisit[] }[]>([]);
  #gesture = '';

  constructor(session: Session) {
    this.#session = session;
  }

  get date(): string {
    return isoDate(this.#session.day);
  }

  /** The visit that is kept for the day. */
  get kept(): DrawnVisit | null {
    return this.#session.visits.find(({ visit }) => visit.date === this.date) ?? null;
  }

  get visit(): Visit {
    return this.kept?.visit ?? { date: this.date };
  }

  /** What is drawn, on the hive as it stands that day. */
  get sheet(): Sheet {
    const { cells } = this.#session;
    const hive = cells ? sheetFor(cells) : { boxes: [] };
    return this.kept ? fitted(this.kept.sheet, hive) : hive;
  }

  get canUndo(): boolean {
    return this.#past.at(-1)?.hive === this.#session.yard.currentId;
  }

  /** What is written: `null` or an empty text takes an entry away, for it was not looked at. */
  write(entry: Partial<Visit>, gesture = ''): void {
    const visit = Object.fromEntries(
      Object.entries({ ...this.visit, ...entry }).filter(([, value]) => value !== null && value !== undefined && value !== ''),
    ) as unknown as Visit;
    this.#put(visit, this.sheet, gesture);
  }

  /** Changes of one `gesture`, such as a stroke, are undone together. */
  draw(sheet: Sheet, gesture = ''): void {
    this.#put(this.visit, sheet, gesture);
  }

  #put(visit: Visit, sheet: Sheet, gesture: string): void {
    const others = this.#session.visits.filter((one) => one.visit.date !== visit.date);
    this.#set(isBlank(visit, sheet) ? others : [...others, { visit: recorded(visit, sheet), sheet }], gesture);
  }

  #set(visits: readonly DrawnVisit[], gesture: string): void {
    const { yard, day, visits: before } = this.#session;
    const { currentId } = yard;
    if (!currentId) return;
    if (!gesture || gesture !== this.#gesture) this.#past = [...this.#past.slice(1 - MOST_UNDONE), { hive: currentId, day, visits: before }];
    this.#gesture = gesture;
    yard.setVisits(currentId, visits);
  }

  undo(): void {
    const before = this.#past.at(-1);
    if (!before || before.hive !== this.#session.yard.currentId) return;
    this.#past = this.#past.slice(0, -1);
    this.#gesture = '';
    this.#session.yard.setVisits(before.hive, before.visits);
    this.#session.goTo(before.day);
  }

  /** Takes the visit off; `undo` brings it back. */
  remove(): void {
    this.#set(
      this.#session.visits.filter(({ visit }) => visit.date !== this.date),
      '',
    );
  }

  /** Moves the visit to another day; `false` where that day has one. */
  moveTo(day: number): boolean {
    const { kept } = this;
    const date = isoDate(day);
    if (!kept || this.#session.visits.some(({ visit }) => visit.date === date)) return false;
    const others = this.#session.visits.filter((one) => one !== kept);
    this.#set([...others, { ...kept, visit: { ...kept.visit, date } }], '');
    this.#session.goTo(day);
    return true;
  }
}
