/**
 * What one visit brings over the line in all: every file that the service worker keeps, compressed where the build has
 * compressed it, against the budget. After each build, and by itself: `npm run transfer`.
 * Prints; nothing here passes or fails.
 */
import { existsSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { filesIn } from './offline.mjs';

/** Most that a visit should bring, in bytes. */
const BUDGET = 400_000;

const KINDS = [
  ['the model', /\.wasm$/],
  ['program', /\.(js|html)$/],
  ['looks', /\.(css|svg)$/],
  ['letters', /\.woff2$/],
  ['weather records', /^assets.*\.(csv|dly|txt)$/],
  ['tables of the evidence', /\.json$/],
  ['papers', /./],
];

/** Bytes of each file as they cross the line, the largest first. */
export function transfer(folder) {
  const size = (file) => statSync(existsSync(`${file}.br`) ? `${file}.br` : file).size;
  const files = [...filesIn(folder), 'sw.js'].map((name) => ({ name, bytes: size(join(folder, name)) }));
  return files.sort((a, b) => b.bytes - a.bytes);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const files = transfer(fileURLToPath(new URL('../dist', import.meta.url)));
  const sum = (some) => some.reduce((total, { bytes }) => total + bytes, 0);
  const kilobytes = (bytes) => `${(bytes / 1000).toFixed(1).padStart(7)} kB`;
  console.log('\nwhat one visit brings, compressed with brotli');
  let left = files;
  for (const [kind, names] of KINDS) {
    const these = left.filter(({ name }) => names.test(name));
    left = left.filter((file) => !these.includes(file));
    const largest = these.slice(0, 3).map(({ name, bytes }) => `${basename(name)} ${(bytes / 1000).toFixed(1)}`);
    console.log(`${kilobytes(sum(these))}  ${kind} (${these.length} files: ${largest.join(', ')}${these.length > 3 ? ', ...' : ''})`);
  }
  const total = sum(files);
  console.log(`${kilobytes(total)}  in all: ${total <= BUDGET ? 'within' : 'OVER'} the budget of ${BUDGET / 1000} kB`);
}
