/**
 * What stays on this device. Hives are written whole, one at a time, each with a revision; the database's versions are
 * migrated in `yard/migrations.ts`. What cannot be read is left where it is. No storage: the page works without.
 */
import { type IDBPDatabase, openDB } from 'idb';
import { text } from './text/index.svelte';
import { type Hive, plain, readHive } from './yard/hive';
import { FILES, fileKey, HIVES, migrate, type Shape, VERSION } from './yard/migrations';
import { isObject } from './yard/shape';
import type { UnitSystem } from './units';

const NAME = 'combcast';
/** Where this page works while the database belongs to a newer one. */
const BESIDE = 'combcast beside a newer one';
const VIEW = 'combcast view';

export interface RecordFile {
  name: string;
  bytes: Uint8Array;
}

/** Why nothing, or not everything, is kept. */
export type Trouble = 'unavailable' | 'blocked' | 'newer' | 'superseded' | 'full';

/** What lies on this device and cannot be read here: kept as it is, to be saved as a file. */
export interface Aside {
  /** Its key among the hives; none: it is not ours to delete. */
  key: string | null;
  reason: string;
  raw: unknown;
}

/** A hive that was deleted, so that it can be brought back. */
export interface Removed {
  hive: Hive;
  files: RecordFile[];
}

/** What came of writing: the hive as it is kept, or what somebody else wrote meanwhile (`null`: what this page cannot read). */
export type Written = { hive: Hive } | { newer: Hive | null };

export class Store {
  trouble: Trouble | null = null;
  /** What a newer page left, which this one cannot read. */
  foreign: Aside[] = [];
  #db: IDBPDatabase<Shape> | null = null;
  #channel: BroadcastChannel | null = null;
  #asked = false;
  #onTrouble: (trouble: Trouble | null) => void = () => {};

  static async open(name = NAME): Promise<Store> {
    const store = new Store();
    try {
      store.#db = await store.#connect(name);
    } catch (fault) {
      if (fault instanceof DOMException && fault.name === 'VersionError') {
        store.trouble = 'newer';
        store.foreign = await everythingIn(name);
        store.#db = await store.#connect(BESIDE).catch(() => null);
      } else {
        store.trouble ??= 'unavailable';
      }
    }
    if (typeof BroadcastChannel !== 'undefined') store.#channel = new BroadcastChannel(name);
    return store;
  }

  #connect(name: string): Promise<IDBPDatabase<Shape>> {
    return new Promise((resolve, reject) => {
      openDB<Shape>(name, VERSION, {
        upgrade: (db, from, _to, transaction) => migrate(db, from, transaction, name === NAME ? firstState() : null),
        blocked: () => {
          this.trouble = 'blocked';
          reject(new Error('blocked'));
        },
        blocking: () => {
          this.close();
          this.#say('superseded');
        },
        terminated: () => {
          this.#db = null;
          this.#say('unavailable');
        },
      }).then((db) => {
        // An upgrade that got through after all: this page has gone on without it.
        if (this.trouble === 'blocked') db.close();
        resolve(db);
      }, reject);
    });
  }

  close(): void {
    this.#db?.close();
    this.#db = null;
    this.#channel?.close();
    this.#channel = null;
  }

  /** Whether anything that is written stays. */
  get keeps(): boolean {
    return this.#db !== null;
  }

  onTrouble(listener: (trouble: Trouble | null) => void): void {
    this.#onTrouble = listener;
  }

  #say(trouble: Trouble | null): void {
    if (this.trouble === trouble) return;
    this.trouble = trouble;
    this.#onTrouble(trouble);
  }

  /** Told the id of a hive that another window wrote or deleted. */
  onChange(listener: (id: string) => void): void {
    if (this.#channel) this.#channel.onmessage = ({ data }: MessageEvent<unknown>) => typeof data === 'string' && listener(data);
  }

  /** Every hive in its order, and what could not be read. */
  async all(): Promise<{ hives: Hive[]; aside: Aside[] }> {
    const hives: Hive[] = [];
    const aside = [...this.foreign];
    if (this.#db) {
      const transaction = this.#db.transaction(HIVES);
      const [keys, values] = await Promise.all([transaction.store.getAllKeys(), transaction.store.getAll()]);
      values.forEach((raw, i) => {
        try {
          hives.push(readHive(raw));
        } catch (fault) {
          aside.push({ key: keys[i] ?? null, reason: fault instanceof Error ? fault.message : String(fault), raw });
        }
      });
    }
    return { hives: hives.toSorted((a, b) => a.order - b.order), aside };
  }

  async one(id: string): Promise<Hive | null> {
    return readable(await this.#db?.get(HIVES, id).catch(() => null));
  }

  /**
   * Writes a hive whole, if nobody has written a newer one since the revision that it came of; otherwise nothing is
   * written, and the newer one comes back.
   */
  async write(hive: Hive): Promise<Written> {
    const next: Hive = { ...plain(hive), revision: hive.revision + 1 };
    if (!this.#db) return { hive: next };
    try {
      const transaction = this.#db.transaction(HIVES, 'readwrite', { durability: 'strict' });
      const stored = await transaction.store.get(hive.id);
      const theirs = stored === undefined ? null : readable(stored);
      if (stored !== undefined && (!theirs || theirs.revision > hive.revision)) {
        await transaction.done;
        return { newer: theirs };
      }
      void transaction.store.put(next);
      transaction.commit();
      await transaction.done;
      if (this.trouble === 'full') this.#say(null);
    } catch (fault) {
      this.#say(fault instanceof DOMException && fault.name === 'QuotaExceededError' ? 'full' : (this.trouble ?? 'unavailable'));
      throw fault;
    }
    this.#channel?.postMessage(hive.id);
    if (next.visits.length > 0) this.#askToPersist();
    return { hive: next };
  }

  /** What a beekeeper wrote down must not go when the device runs short of room. */
  #askToPersist(): void {
    if (this.#asked) return;
    this.#asked = true;
    void navigator.storage?.persist?.().catch(() => false);
  }

  /** Deletes a hive with its weather files, and hands back what was there. */
  async remove(hive: Hive): Promise<Removed> {
    const files: RecordFile[] = [];
    if (this.#db) {
      const transaction = this.#db.transaction([HIVES, FILES], 'readwrite', { durability: 'strict' });
      const [kept, range] = [transaction.objectStore(FILES), filesOf(hive.id)];
      files.push(...(await kept.getAll(range)));
      await Promise.all([kept.delete(range), transaction.objectStore(HIVES).delete(hive.id), transaction.done]);
      this.#channel?.postMessage(hive.id);
    }
    return { hive, files };
  }

  /** Brings a deleted hive back, or adds one with its files: all of it or nothing. */
  async add({ hive, files }: Removed): Promise<Hive> {
    const next: Hive = { ...plain(hive), revision: hive.revision + 1 };
    if (!this.#db) return next;
    const transaction = this.#db.transaction([HIVES, FILES], 'readwrite', { durability: 'strict' });
    await Promise.all([
      transaction.objectStore(HIVES).add(next),
      ...files.map((file) => transaction.objectStore(FILES).put(file, fileKey(hive.id, file.name))),
      transaction.done,
    ]);
    this.#channel?.postMessage(hive.id);
    return next;
  }

  /** Deletes what could not be read, once its owner has said so. */
  async forget({ key }: Aside): Promise<void> {
    if (key !== null) await this.#db?.delete(HIVES, key);
  }

  async keepFile(hive: string, file: RecordFile): Promise<void> {
    try {
      await this.#db?.put(FILES, file, fileKey(hive, file.name));
    } catch {
      // The file has to be chosen again after a reload.
      this.#say('full');
    }
  }

  async filesOf(hive: string): Promise<RecordFile[]> {
    try {
      return (await this.#db?.getAll(FILES, filesOf(hive))) ?? [];
    } catch {
      return [];
    }
  }
}

function readable(raw: unknown): Hive | null {
  try {
    return readHive(raw);
  } catch {
    return null;
  }
}

const filesOf = (hive: string) => IDBKeyRange.bound(fileKey(hive, ''), fileKey(hive, '\uffff'));

/** All that lies in a database of whatever version, as it is. */
async function everythingIn(name: string): Promise<Aside[]> {
  try {
    const db = await openDB(name);
    const stores: Record<string, unknown> = {};
    for (const store of Array.from(db.objectStoreNames)) stores[store] = await db.getAll(store);
    const { version } = db;
    db.close();
    return [{ key: null, reason: text().yard.fault.newer(version, VERSION), raw: { version, stores } }];
  } catch {
    return [];
  }
}

/** What a page of version 1 kept in the browser's small storage. */
function firstState(): string | null {
  try {
    return localStorage.getItem(NAME);
  } catch {
    return null;
  }
}

/** What this window shows: not part of any hive, and of no worth to anybody else. */
export interface View {
  units?: UnitSystem;
  /** The hive that is open. */
  hive?: string;
  /** The chosen day of each hive. */
  days?: Record<string, number>;
  /** On the visit sheet what was expected is hidden. */
  expectedHidden?: boolean;
}

export function keptView(): View {
  try {
    const view: unknown = JSON.parse(localStorage.getItem(VIEW) ?? 'null');
    if (isObject(view)) return view as View;
    // A page of version 1 kept its view with its plan.
    const first: unknown = JSON.parse(firstState() ?? 'null');
    if (!isObject(first)) return {};
    return {
      ...(first.units === 'us' || first.units === 'metric' ? { units: first.units } : {}),
      ...(Number.isInteger(first.day) ? { days: { first: first.day as number } } : {}),
    };
  } catch {
    return {};
  }
}

export function keepView(view: View): void {
  try {
    localStorage.setItem(VIEW, JSON.stringify(view));
  } catch {
    // Full or forbidden: the page starts at the usual day.
  }
}
