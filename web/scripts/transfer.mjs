/**
 * What one visit brings over the line, compressed where the build has compressed it: until the first season is drawn and its
 * story told, as Chromium opens the page, against the budget; and in all, with every file that the service worker keeps
 * afterwards. After each build, and by itself: `npm run transfer`. Prints; nothing here passes or fails.
 */
import { existsSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { filesIn } from './offline.mjs';
import { canOpen, opened, withPage } from './opening.mjs';

const folder = fileURLToPath(new URL('../dist', import.meta.url));
/** Most that a visit should bring until the first season and its story stand, in bytes. */
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

const sum = (files) => files.reduce((total, { bytes }) => total + bytes, 0);
const kilobytes = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;

/** Bytes of each file as they cross the line, the largest first. */
export function transfer() {
  const size = (file) => statSync(existsSync(`${file}.br`) ? `${file}.br` : file).size;
  const files = [...filesIn(folder), 'sw.js'].map((name) => ({ name, bytes: size(join(folder, name)) }));
  return files.sort((a, b) => b.bytes - a.bytes);
}

/** These files of the page in words. */
export function saidOfFirst(names) {
  const files = transfer().filter(({ name }) => names.has(name));
  const first = sum(files);
  const word = first <= BUDGET ? 'within' : 'OVER';
  return `${kilobytes(first)} until the first season and its story stand (${files.length} files): ${word} the budget of ${BUDGET / 1000} kB`;
}

/** All of them in words. */
export function saidOfAll() {
  const files = transfer();
  return `${kilobytes(sum(files))} in all (${files.length} files), the others after that, kept for use without a network`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  console.log('\nwhat one visit brings, compressed with brotli');
  let left = transfer();
  for (const [kind, names] of KINDS) {
    const these = left.filter(({ name }) => names.test(name));
    left = left.filter((file) => !these.includes(file));
    const largest = these.slice(0, 3).map(({ name, bytes }) => `${basename(name)} ${(bytes / 1000).toFixed(1)}`);
    console.log(`${kilobytes(sum(these)).padStart(10)}  ${kind} (${these.length} files: ${largest.join(', ')}${these.length > 3 ? ', ...' : ''})`);
  }
  // A build does without a browser.
  if (canOpen()) {
    const { files } = await withPage(async (address, context) => opened(await context.newPage(), address));
    console.log(saidOfFirst(files));
  } else {
    console.log('what comes until the first season and its story stand was not measured: no Chromium');
  }
  console.log(saidOfAll());
}
