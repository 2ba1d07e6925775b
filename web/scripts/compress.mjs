/**
 * A Vite plugin: writes each built file that shrinks a second and third time, compressed, for servers that hand those out
 * (the small one of `cargo xtask serve` does). Servers that compress by themselves leave them alone.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';

const SHRINKS = /\.(html|js|css|svg|webmanifest|wasm|csv|json|txt|dly)$/;

/** Both compressed forms of some bytes. */
export function compressed(bytes) {
  const params = { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length };
  return { br: brotliCompressSync(bytes, { params }), gz: gzipSync(bytes, { level: 9 }) };
}

export function compress() {
  let folder = '';
  return {
    name: 'compress',
    apply: 'build',
    configResolved(config) {
      folder = join(config.root, config.build.outDir);
    },
    // After everything is written, the service worker too.
    closeBundle: {
      order: 'post',
      sequential: true,
      handler() {
        for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
          if (!entry.isFile() || !SHRINKS.test(entry.name)) continue;
          const file = join(entry.parentPath, entry.name);
          for (const [ending, bytes] of Object.entries(compressed(readFileSync(file)))) writeFileSync(`${file}.${ending}`, bytes);
        }
      },
    },
  };
}
