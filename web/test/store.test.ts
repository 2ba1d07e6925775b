import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Store } from '../src/storage';
import { type Hive, newHive } from '../src/yard/hive';
import { FILES, FIRST_ID, HIVES, hiveOfFirst, VERSION } from '../src/yard/migrations';
import { scenario } from './door';

const plan = () => scenario('wet-spring.toml');
const bytes = new Uint8Array([1, 2, 3]);
const kept = new Map<string, string>();
const stores: Store[] = [];

async function open(): Promise<Store> {
  const store = await Store.open();
  stores.push(store);
  return store;
}

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  kept.clear();
  Object.assign(globalThis, {
    localStorage: { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => kept.set(key, value) },
  });
});
afterEach(() => {
  for (const store of stores.splice(0)) store.close();
});

/** What a page of version 1 left behind. */
async function firstPage(state: unknown, record: boolean): Promise<void> {
  kept.set('combcast', typeof state === 'string' ? state : JSON.stringify(state));
  if (!record) return;
  const db = await openDB('combcast', 1, { upgrade: (db) => void db.createObjectStore('files') });
  await db.put('files', { name: 'garden.csv', bytes }, 'record');
  db.close();
}

const firstState = (over: object = {}) => ({
  scenario: { ...plan(), name: 'Mine' },
  faultyText: 'name = "half',
  units: 'us',
  day: 15_500,
  twinKind: 'kept',
  kept: plan(),
  recordName: 'garden.csv',
  ...over,
});

describe('migration from version 1', () => {
  it('keeps the plan, the faulty text, the comparison and the weather file', async () => {
    await firstPage(firstState(), true);
    const store = await open();
    const { hives, aside } = await store.all();
    expect(aside).toEqual([]);
    expect(hives).toHaveLength(1);
    expect(hives[0]).toMatchObject({ id: FIRST_ID, name: 'Mine', faultyText: 'name = "half', twinKind: 'kept', recordName: 'garden.csv', visits: [] });
    expect(hives[0]?.scenario).toEqual({ ...plan(), name: 'Mine' });
    expect(hives[0]?.kept).toEqual(plan());
    expect(await store.filesOf(FIRST_ID)).toEqual([{ name: 'garden.csv', bytes }]);
    expect(kept.get('combcast')).toBeDefined();
  });

  it('works where no weather file was ever kept, so that there was no database', async () => {
    await firstPage(firstState({ recordName: null }), false);
    const { hives } = await (await open()).all();
    expect(hives.map(({ name }) => name)).toEqual(['Mine']);
  });

  it('happens once', async () => {
    await firstPage(firstState(), true);
    const store = await open();
    const { hives } = await store.all();
    await store.write({ ...(hives[0] as Hive), name: 'Renamed' });
    store.close();
    expect((await (await open()).all()).hives.map(({ name }) => name)).toEqual(['Renamed']);
  });

  it.each([['{"scenario": {"name": "cut sho'], ['{"scenario": {"name": 3}}'], ['[]']])('sets text aside that is no plan: %s', async (text) => {
    await firstPage(text, false);
    const { hives, aside } = await (await open()).all();
    expect(hives).toEqual([]);
    expect(aside).toHaveLength(1);
    expect(aside[0]?.raw).toEqual({ id: FIRST_ID, text });
  });

  it('begins with nothing where nothing was', async () => {
    expect(await (await open()).all()).toEqual({ hives: [], aside: [] });
  });

  it('takes an unknown comparison for no reason to lose the plan', () => {
    expect(hiveOfFirst(JSON.stringify(firstState({ twinKind: 7 })))).toMatchObject({ name: 'Mine', twinKind: 'feed' });
  });
});

describe('writing', () => {
  it('counts revisions, and writes nothing over what is newer', async () => {
    const [here, there] = [await open(), await open()];
    const hive = await here.add({ hive: newHive(plan(), 0), files: [] });
    const first = await here.write({ ...hive, name: 'Here' });
    expect(first).toMatchObject({ hive: { name: 'Here', revision: 2 } });
    const second = await there.write({ ...hive, name: 'There' });
    expect(second).toMatchObject({ newer: { name: 'Here', revision: 2 } });
    expect((await here.all()).hives.map(({ name }) => name)).toEqual(['Here']);
  });

  it('writes nothing over what it cannot read', async () => {
    const store = await open();
    const hive = await store.add({ hive: newHive(plan(), 0), files: [] });
    const db = await openDB('combcast', VERSION);
    const newer = { ...hive, format: 99 };
    await db.put(HIVES, newer);
    expect(await store.write({ ...hive, name: 'Mine' })).toEqual({ newer: null });
    expect(await db.get(HIVES, hive.id)).toEqual(newer);
    db.close();
  });

  it('brings a deleted hive back with its weather files', async () => {
    const store = await open();
    const hive = await store.add({ hive: newHive(plan(), 0), files: [{ name: 'garden.csv', bytes }] });
    const removed = await store.remove(hive);
    expect((await store.all()).hives).toEqual([]);
    expect(await store.filesOf(hive.id)).toEqual([]);
    await store.add(removed);
    expect((await store.all()).hives.map(({ id }) => id)).toEqual([hive.id]);
    expect(await store.filesOf(hive.id)).toEqual([{ name: 'garden.csv', bytes }]);
  });

  it('does not add in the place of another', async () => {
    const store = await open();
    const hive = await store.add({ hive: newHive(plan(), 0), files: [] });
    await expect(store.add({ hive: { ...hive, name: 'Other' }, files: [] })).rejects.toThrow();
    expect((await store.all()).hives.map(({ name }) => name)).toEqual([hive.name]);
  });

  it('tells the other windows', async () => {
    const [here, there] = [await open(), await open()];
    const heard = new Promise((resolve) => there.onChange(resolve));
    const hive = await here.add({ hive: newHive(plan(), 0), files: [] });
    expect(await heard).toBe(hive.id);
    expect(await there.one(hive.id)).toEqual(hive);
  });
});

describe('what cannot be read', () => {
  it('stays where it is, whatever is written', async () => {
    const store = await open();
    const hive = await store.add({ hive: newHive(plan(), 0), files: [] });
    const db = await openDB('combcast', VERSION);
    const newer = { ...hive, id: 'newer', format: 99, future: true };
    const broken = { ...hive, id: 'broken', visits: [{ visit: { date: 'soon' }, sheet: { boxes: [] } }] };
    await db.put(HIVES, newer);
    await db.put(HIVES, broken);
    const { hives, aside } = await store.all();
    expect(hives.map(({ id }) => id)).toEqual([hive.id]);
    expect(aside.map(({ key, reason }) => [key, reason])).toEqual([
      ['broken', 'hive.visits[0].visit.date: expected a date such as 2026-06-17, got "soon"'],
      ['newer', 'hive.format: was written by a newer Combcast (99; this one knows 2)'],
    ]);
    await store.write(hive);
    expect(await db.get(HIVES, 'newer')).toEqual(newer);
    expect(await db.get(HIVES, 'broken')).toEqual(broken);
    db.close();
  });

  it('leaves a newer database alone, shows what is in it, and works beside it', async () => {
    const db = await openDB('combcast', VERSION + 7, {
      upgrade: (db) => {
        db.createObjectStore(HIVES, { keyPath: 'id' });
        db.createObjectStore(FILES);
      },
    });
    await db.put(HIVES, { id: 'future', wings: 4 });
    db.close();
    const store = await open();
    expect(store.trouble).toBe('newer');
    const { hives, aside } = await store.all();
    expect(hives).toEqual([]);
    expect(aside).toMatchObject([{ key: null, raw: { version: VERSION + 7, stores: { hives: [{ id: 'future', wings: 4 }] } } }]);
    await store.add({ hive: newHive(plan(), 0), files: [] });
    expect((await store.all()).hives).toHaveLength(1);
    const again = await openDB('combcast');
    expect(again.version).toBe(VERSION + 7);
    expect(await again.getAll(HIVES)).toEqual([{ id: 'future', wings: 4 }]);
    again.close();
  });

  it('works without any storage', async () => {
    Object.assign(globalThis, { indexedDB: { open: () => { throw new DOMException('no', 'SecurityError'); } } });
    const store = await open();
    expect(store.trouble).toBe('unavailable');
    const hive = await store.add({ hive: newHive(plan(), 0), files: [] });
    expect(await store.write(hive)).toMatchObject({ hive: { revision: 2 } });
    expect(store.keeps).toBe(false);
  });
});
