/**
 * The hives on this device as the page sees them. Every change is in the list at once and on its way to storage in the
 * same moment; another window's changes come in, and neither overwrites what the other has newer.
 */
import { untrack } from 'svelte';
import { type Aside, type RecordFile, type Removed, Store, type Trouble } from '../storage';
import { type Bundled, packed, same } from './bundle';
import type { Scenario } from '../scenario';
import { type DrawnVisit, FORMAT, freeName, type Hive, type HiveContent, inOrder, newId } from './hive';

/** Something about the list that has to be said. */
export type News = { kind: 'both-changed' | 'gone' | 'deleted'; name: string } | { kind: 'imported'; count: number; same: number } | { kind: 'opened'; name: string; id: string; before: string; scenario: Scenario };

const NONE: readonly DrawnVisit[] = [];

export class Yard {
  #hives = $state.raw<Hive[]>([]);
  #currentId = $state<string | null>(null);
  aside = $state.raw<Aside[]>([]);
  /** What was found in the open hive, in order of date. Apart from the hives: whoever looks at visits need not look again whenever a plan is kept. */
  visits = $state.raw<readonly DrawnVisit[]>(NONE);
  trouble = $state<Trouble | null>(null);
  news = $state.raw<News | null>(null);
  /** The hive deleted last; `undoRemove` brings it back. */
  removed = $state.raw<Removed | null>(null);
  /** Whether something is on its way to storage. */
  saving = $state(false);

  #store: Store | null = null;
  #pending = new Set<string>();
  /** Hives that another window wrote while this one was writing. */
  #missed = new Set<string>();
  #idle: Promise<void> = Promise.resolve();
  #onAdopted: (hive: Hive | null) => void;

  get hives(): Hive[] {
    return this.#hives;
  }
  set hives(hives) {
    this.#hives = hives;
    this.#lookAtVisits();
  }

  get currentId(): string | null {
    return this.#currentId;
  }
  set currentId(id) {
    this.#currentId = id;
    this.#lookAtVisits();
  }

  #lookAtVisits(): void {
    this.visits = untrack(() => this.current?.visits ?? NONE);
  }

  /** `onAdopted` is told when the open hive was changed by another window; `null`: when it is gone. */
  constructor(onAdopted: (hive: Hive | null) => void) {
    this.#onAdopted = onAdopted;
  }

  async open(store: Store): Promise<void> {
    this.#store = store;
    store.onTrouble((trouble) => {
      this.trouble = trouble;
    });
    store.onChange((id) => void this.#take(id));
    const { hives, aside } = await store.all();
    this.hives = hives;
    this.aside = aside;
    this.trouble = store.trouble;
  }

  get current(): Hive | null {
    return this.hive(this.currentId);
  }

  hive(id: string | null): Hive | null {
    return this.hives.find((hive) => hive.id === id) ?? null;
  }

  get #names(): string[] {
    return this.hives.map(({ name }) => name);
  }

  /** A place after all others. */
  get nextOrder(): number {
    return Math.max(-1, ...this.hives.map(({ order }) => order)) + 1;
  }

  /** Adds a hive under a name that none has; never in the place of another. */
  async add(hive: Hive, files: RecordFile[] = []): Promise<Hive> {
    const named = { ...hive, name: freeName(hive.name, this.#names), order: this.nextOrder };
    this.hives = [...this.hives, named];
    await this.#added({ hive: named, files });
    return this.hive(named.id) ?? named;
  }

  async #added(whole: Removed): Promise<void> {
    const { id } = whole.hive;
    const kept = await this.#store?.add(whole).catch(() => null);
    if (kept) this.hives = this.hives.map((hive) => (hive.id === id ? { ...hive, revision: kept.revision } : hive));
  }

  /** A hive like another one but for what is said, without its visits: they belong to one colony. */
  async copy(id: string, other: Partial<HiveContent> = {}): Promise<Hive | null> {
    const hive = this.hive(id);
    if (!hive) return null;
    const files = (await this.#store?.filesOf(id)) ?? [];
    return this.add({ ...hive, ...other, id: newId(), revision: 0, visits: [] }, files);
  }

  /** Changes the content of a hive. */
  change(id: string, change: Partial<HiveContent>): void {
    this.hives = this.hives.map((hive) => (hive.id === id ? { ...hive, ...change } : hive));
    this.#save(id);
  }

  setVisits(id: string, visits: readonly DrawnVisit[]): void {
    this.change(id, { visits: inOrder(visits) });
  }

  rename(id: string, name: string): void {
    const others = this.hives.filter((hive) => hive.id !== id).map((hive) => hive.name);
    const trimmed = name.trim();
    if (trimmed) this.change(id, { name: freeName(trimmed, others) });
  }

  async remove(id: string): Promise<void> {
    const hive = this.hive(id);
    if (!hive) return;
    this.hives = this.hives.filter((one) => one.id !== id);
    this.#pending.delete(id);
    await this.settled();
    this.removed = (await this.#store?.remove(hive)) ?? { hive, files: [] };
    this.news = { kind: 'deleted', name: hive.name };
  }

  async undoRemove(): Promise<Hive | null> {
    const { removed } = this;
    if (!removed) return null;
    this.removed = null;
    this.news = null;
    // Written before it is listed: what is seen to be back stays when the page is loaded again at once.
    const kept = await this.#store?.add(removed).catch(() => null);
    const hive = kept ? { ...removed.hive, revision: kept.revision } : removed.hive;
    this.hives = [...this.hives, hive].toSorted((a, b) => a.order - b.order);
    return hive;
  }

  /** Adds what a file holds; what is there already in all its parts is not added again. */
  async bringIn(bundled: readonly Bundled[]): Promise<void> {
    let count = 0;
    for (const { content, files } of bundled) {
      if (this.hives.some((hive) => same(hive, content))) continue;
      count += 1;
      await this.add({ format: FORMAT, id: newId(), revision: 0, order: this.nextOrder, ...content }, files);
    }
    this.news = { kind: 'imported', count, same: bundled.length - count };
  }

  /** Everything as the text of one file. */
  async packed(made: string): Promise<string> {
    const hives = await Promise.all(this.hives.map(async (hive) => ({ hive, files: await this.filesOf(hive.id) })));
    return packed(hives, made);
  }

  async forget(aside: Aside): Promise<void> {
    await this.#store?.forget(aside);
    this.aside = this.aside.filter((one) => one !== aside);
  }

  async keepFile(id: string, file: RecordFile): Promise<void> {
    await this.#store?.keepFile(id, file);
  }

  async filesOf(id: string): Promise<RecordFile[]> {
    return (await this.#store?.filesOf(id)) ?? [];
  }

  /** Resolves when everything changed so far has been written. */
  settled(): Promise<void> {
    return this.#idle;
  }

  #save(id: string): void {
    this.#pending.add(id);
    if (this.saving) return;
    this.saving = true;
    this.#idle = this.#write();
  }

  /** One write at a time; of what changes meanwhile, the newest. */
  async #write(): Promise<void> {
    for (const id of this.#pending) {
      this.#pending.delete(id);
      const hive = this.hive(id);
      if (!hive || !this.#store) continue;
      const written = await this.#store.write(hive).catch(() => null);
      if (!written) continue;
      if ('newer' in written) await this.#bothChanged(id, written.newer);
      else this.hives = this.hives.map((one) => (one.id === id ? { ...one, revision: written.hive.revision } : one));
    }
    this.saving = false;
    const missed = [...this.#missed];
    this.#missed.clear();
    for (const id of missed) void this.#take(id);
  }

  /** Another window wrote the hive first: its version stays, and this window's becomes a hive of its own. */
  async #bothChanged(id: string, newer: Hive | null): Promise<void> {
    const mine = this.hive(id);
    this.hives = this.hives.flatMap((hive) => (hive.id !== id ? [hive] : newer ? [newer] : []));
    this.#pending.delete(id);
    if (!mine) return;
    const copy = await this.add({ ...mine, id: newId(), revision: 0 }, await this.filesOf(id));
    if (this.currentId === id) this.currentId = copy.id;
    this.news = { kind: 'both-changed', name: copy.name };
  }

  /** Takes what another window wrote. */
  async #take(id: string): Promise<void> {
    const hive = (await this.#store?.one(id)) ?? null;
    // What is changed here meanwhile is on its way to storage, which will tell which one is the newer.
    if (this.saving) {
      this.#missed.add(id);
      return;
    }
    const mine = this.hive(id);
    if (!hive) {
      if (!mine) return;
      this.hives = this.hives.filter((one) => one.id !== id);
      if (id === this.currentId) {
        this.news = { kind: 'gone', name: mine.name };
        this.#onAdopted(null);
      }
      return;
    }
    if (mine && mine.revision >= hive.revision) return;
    this.hives = [...this.hives.filter((one) => one.id !== id), hive].toSorted((a, b) => a.order - b.order);
    if (id === this.currentId) this.#onAdopted(hive);
  }

  /** Looks at storage again: a window that was asleep has heard nothing. */
  async refresh(): Promise<void> {
    if (!this.#store || this.saving) return;
    const { hives } = await this.#store.all().catch(() => ({ hives: this.hives }));
    if (!this.#store.keeps || this.saving) return;
    for (const { id } of [...this.hives, ...hives]) await this.#take(id);
  }
}
