/**
 * Everything as one file: a JSON text of our own, with a version. A file of an older version will always be read; a newer
 * one, or one that is not whole, is refused in words before anything is taken from it.
 */
import type { RecordFile } from '../storage';
import { type Hive, type HiveContent, plain, readContent } from './hive';
import { text as texts } from '../text/index.svelte';
import { isObject, ShapeError, unlike } from './shape';

export const BUNDLE = 'combcast yard';
export const BUNDLE_VERSION = 2;
/** A season's weather of thirty years is about 1 MB: more than this is no file of ours, bytes. */
export const MOST_BYTES = 64 * 1024 * 1024;

/** Why a file was not taken. */
export type Refusal = 'empty' | 'huge' | 'damaged' | 'foreign' | 'newer' | 'hive';

export class BundleError extends Error {
  /** `detail`: the version, or the place and what is wrong there. */
  constructor(
    readonly refusal: Refusal,
    readonly detail = '',
  ) {
    super(detail ? `${refusal}: ${detail}` : refusal);
    this.name = 'BundleError';
  }
}

export interface Bundled {
  content: HiveContent;
  files: RecordFile[];
}

/** The text of a file with these hives, as `made` on a date. */
export function packed(hives: readonly { hive: Hive; files: readonly RecordFile[] }[], made: string): string {
  const out = hives.map(({ hive, files }) => {
    const { format: _f, id: _i, revision: _r, order: _o, ...content } = plain(hive);
    return { ...content, files: files.map(({ name, bytes }) => ({ name, base64: base64(bytes) })) };
  });
  return `${JSON.stringify({ format: BUNDLE, version: BUNDLE_VERSION, made, hives: out }, null, 1)}\n`;
}

/** The hives of a file; throws a `BundleError`. */
export function unpacked(text: string): Bundled[] {
  if (text.trim() === '') throw new BundleError('empty');
  if (text.length > MOST_BYTES) throw new BundleError('huge');
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw new BundleError(text.trimStart().startsWith('{') ? 'damaged' : 'foreign');
  }
  if (!isObject(data) || data.format !== BUNDLE) throw new BundleError('foreign');
  if (typeof data.version !== 'number' || !Number.isInteger(data.version) || data.version < 1) throw new BundleError('damaged', 'version');
  if (data.version > BUNDLE_VERSION) throw new BundleError('newer', String(data.version));
  if (!Array.isArray(data.hives)) throw new BundleError('damaged', 'hives');
  return data.hives.map((one: unknown, i): Bundled => {
    try {
      const content = readContent(one, `hives[${i}]`);
      const files = readFiles((one as Record<string, unknown>).files ?? [], `hives[${i}].files`);
      const { recordName } = content;
      if (recordName !== null && !files.some(({ name }) => name === recordName)) {
        throw new ShapeError(`hives[${i}].files`, texts().yard.fault.fileMissing(recordName));
      }
      return { content, files };
    } catch (fault) {
      if (fault instanceof ShapeError) throw new BundleError('hive', fault.message);
      throw fault;
    }
  });
}

function readFiles(value: unknown, place: string): RecordFile[] {
  if (!Array.isArray(value)) throw unlike(place, texts().yard.fault.list, value);
  return value.map((file: unknown, i) => {
    const at = `${place}[${i}]`;
    if (!isObject(file) || typeof file.name !== 'string' || typeof file.base64 !== 'string') throw unlike(at, texts().yard.fault.file, file);
    const bytes = fromBase64(file.base64);
    if (!bytes) throw new ShapeError(`${at}.base64`, texts().yard.fault.notBase64);
    return { name: file.name, bytes };
  });
}

/** Whether two hives hold the same. */
export const same = (a: HiveContent, b: HiveContent): boolean => JSON.stringify(sorted(readContent(plain(a), ''))) === JSON.stringify(sorted(readContent(plain(b), '')));

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([a], [b]) => a.localeCompare(b))
      .map(([key, part]) => [key, sorted(part)]),
  );
}

export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let from = 0; from < bytes.length; from += 8192) text += String.fromCharCode(...bytes.subarray(from, from + 8192));
  return btoa(text);
}

export function fromBase64(text: string): Uint8Array<ArrayBuffer> | null {
  try {
    return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  } catch {
    return null;
  }
}
