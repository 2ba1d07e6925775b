/**
 * The database on this device, version by version. Each step takes what the one before left and loses nothing of it.
 *
 * 1: one weather file in `files` under `record`; the one plan lay in the browser's small storage, as JSON.
 * 2: hives in `hives` by their id; weather files in `files` under the hive's id and their name.
 */
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb';
import type { RecordFile } from '../storage';
import { FORMAT, type Hive, readContent } from './hive';
import { isObject } from './shape';

export const VERSION = 2;
export const HIVES = 'hives';
export const FILES = 'files';
/** The id of the hive that comes of a page of version 1. */
export const FIRST_ID = 'first';

export interface Shape extends DBSchema {
  [HIVES]: { key: string; value: unknown };
  [FILES]: { key: string; value: RecordFile };
}

export const fileKey = (hive: string, name: string): string => `${hive}/${name}`;

type Upgrade = IDBPTransaction<Shape, StoreNames<Shape>[], 'versionchange'>;

/** Brings a database of version `from` (0: a new one) up to now. `first`: what a page of version 1 kept beside it. */
export async function migrate(db: IDBPDatabase<Shape>, from: number, transaction: Upgrade, first: string | null): Promise<void> {
  if (from < 1) db.createObjectStore(FILES);
  if (from < 2) {
    const hives = db.createObjectStore(HIVES, { keyPath: 'id' });
    const moved = first === null ? null : hiveOfFirst(first);
    if (moved) await hives.put(moved);
    const files = transaction.objectStore(FILES);
    const record = await files.get('record');
    if (record) {
      await files.put(record, fileKey(FIRST_ID, record.name));
      await files.delete('record');
    }
  }
}

/** The hive of a page of version 1; text that cannot be read as one is kept as it is, and is set aside when it is read. */
export function hiveOfFirst(text: string): Hive | { id: string; text: string } {
  try {
    const state: unknown = JSON.parse(text);
    if (isObject(state) && isObject(state.scenario)) {
      const content = readContent(
        {
          name: state.scenario.name,
          scenario: state.scenario,
          faultyText: state.faultyText ?? null,
          twinKind: typeof state.twinKind === 'string' ? state.twinKind : 'feed',
          kept: state.kept ?? null,
          recordName: state.recordName ?? null,
          visits: [],
        },
        'hive',
      );
      return { format: FORMAT, id: FIRST_ID, revision: 1, order: 0, ...content };
    }
  } catch {
    // Kept below as it is.
  }
  return { id: FIRST_ID, text };
}
