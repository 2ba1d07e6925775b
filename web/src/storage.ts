/**
 * What stays on this device, so that a reload loses nothing. No storage: the page works without.
 */
import { openDB } from 'idb';
import type { TwinKind } from './plan';
import type { Scenario } from './scenario';
import type { UnitSystem } from './units';

const KEY = 'combcast';

export interface KeptState {
  scenario: Scenario;
  /** Text that could not be read as a scenario. */
  faultyText: string | null;
  units: UnitSystem;
  day: number;
  twinKind: TwinKind;
  kept: Scenario | null;
  recordName: string | null;
}

export interface RecordFile {
  name: string;
  bytes: Uint8Array;
}

export function keepState(state: KeptState): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(state));
  } catch {
    // Full or forbidden: nothing is kept, and the page says so nowhere else than by starting afresh.
  }
}

export function keptState(): KeptState | null {
  try {
    const state = JSON.parse(localStorage.getItem(KEY) ?? 'null') as KeptState | null;
    return state?.scenario ? state : null;
  } catch {
    return null;
  }
}

export function forgetState(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // Nothing was kept.
  }
}

const database = () =>
  openDB(KEY, 1, {
    upgrade(db) {
      db.createObjectStore('files');
    },
  });

export async function keepRecord(record: RecordFile): Promise<void> {
  try {
    await (await database()).put('files', record, 'record');
  } catch {
    // The file has to be chosen again after a reload.
  }
}

export async function recordFile(): Promise<RecordFile | null> {
  try {
    return ((await (await database()).get('files', 'record')) as RecordFile | undefined) ?? null;
  } catch {
    return null;
  }
}
