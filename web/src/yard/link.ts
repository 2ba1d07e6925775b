/**
 * A plan as a link that holds it whole, in the part of the address that no server sees.
 */
import type { Scenario } from '../scenario';
import { base64, fromBase64 } from './bundle';
import { isLink, MARK } from './mark';
import { isObject } from './shape';

const LINK_VERSION = 1;
/** A plan is a few kB: more than this is none, bytes. */
const MOST_BYTES = 512 * 1024;

/** Why a link was refused. */
export type LinkRefusal = 'damaged' | 'newer' | 'huge';

export class LinkError extends Error {
  constructor(readonly refusal: LinkRefusal) {
    super(refusal);
    this.name = 'LinkError';
  }
}

export interface Shared {
  name: string;
  scenario: Scenario;
}

/** The end of an address that holds a plan. */
export async function linkOf({ name, scenario }: Shared): Promise<string> {
  const text = JSON.stringify({ version: LINK_VERSION, name, scenario });
  const bytes = await new Response(new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'))).arrayBuffer();
  return MARK + base64(new Uint8Array(bytes)).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** The plan that an address holds; throws a `LinkError`. The model has still to say whether it is one. */
export async function planOf(hash: string): Promise<Shared> {
  const letters = hash.slice(MARK.length);
  if (letters.length > MOST_BYTES) throw new LinkError('huge');
  const bytes = fromBase64(letters.replaceAll('-', '+').replaceAll('_', '/'));
  if (!isLink(hash) || !bytes) throw new LinkError('damaged');
  let data: unknown;
  try {
    data = JSON.parse(await inflated(bytes));
  } catch (fault) {
    throw fault instanceof LinkError ? fault : new LinkError('damaged');
  }
  if (!isObject(data) || typeof data.version !== 'number') throw new LinkError('damaged');
  if (data.version > LINK_VERSION) throw new LinkError('newer');
  if (typeof data.name !== 'string' || !isObject(data.scenario)) throw new LinkError('damaged');
  return { name: data.name, scenario: data.scenario as unknown as Scenario };
}

/** Unpacks no more than a plan can be: a small link can hold very much. */
async function inflated(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
  const parts: BlobPart[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.byteLength;
    if (size > MOST_BYTES) {
      await reader.cancel();
      throw new LinkError('huge');
    }
    parts.push(value as Uint8Array<ArrayBuffer>);
  }
  return new Blob(parts).text();
}
