import { readFileSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { compress } from './scripts/compress.mjs';
import { offline } from './scripts/offline.mjs';

/** Ships the licence of each font beside the page, as the SIL Open Font License asks. */
function fontLicences(): Plugin {
  return {
    name: 'font-licences',
    apply: 'build',
    generateBundle() {
      for (const font of ['literata', 'commissioner']) {
        const file = new URL(`node_modules/@fontsource-variable/${font}/LICENSE`, import.meta.url);
        this.emitFile({ type: 'asset', fileName: `licences/${font}.txt`, source: readFileSync(file) });
      }
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [svelte(), fontLicences(), offline(), compress()],
  worker: { format: 'es' },
  server: { fs: { allow: ['..'] } },
  build: { target: 'es2022', assetsInlineLimit: 0 },
  test: { include: ['test/**/*.test.ts'], environment: 'node' },
});
