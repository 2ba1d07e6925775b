/**
 * A Vite plugin: writes the service worker with the list of everything that was built, so that the page works
 * without a network after one visit.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';

const NAME = 'sw.js';

/** The files of a folder and all folders in it, as paths with forward slashes, in order. */
export function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((name) => name !== NAME && !/\.(br|gz)$/.test(name))
    .sort();
}

/** The service worker for the files of a folder; another version when any of them differs. */
export function serviceWorker(folder) {
  const files = filesIn(folder);
  const template = readFileSync(new URL('offline-worker.js', import.meta.url), 'utf8');
  const digest = createHash('sha256').update(template);
  for (const file of files) digest.update(file).update(readFileSync(join(folder, file)));
  const version = digest.digest('hex').slice(0, 16);
  return `const VERSION = ${JSON.stringify(version)};\nconst FILES = ${JSON.stringify(files)};\n${template}`;
}

export function offline() {
  let folder = '';
  return {
    name: 'offline',
    apply: 'build',
    configResolved(config) {
      folder = join(config.root, config.build.outDir);
    },
    // The worker of the model is built apart and ends its own bundle before the page is written.
    writeBundle: {
      order: 'post',
      sequential: true,
      handler() {
        writeFileSync(join(folder, NAME), serviceWorker(folder));
      },
    },
  };
}
