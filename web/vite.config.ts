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

/** Takes the prose out of the JSON Schemas: the page reads their limits and shapes only. */
function plainSchemas(): Plugin {
  return {
    name: 'plain-schemas',
    enforce: 'pre',
    load(id) {
      const [file, query] = id.split('?');
      if (!file?.endsWith('.schema.json')) return null;
      const prose = (key: string, value: unknown) => key === 'description' && typeof value === 'string';
      const schema: unknown = JSON.parse(readFileSync(file, 'utf8'));
      const plain = JSON.stringify(schema, (key, value: unknown) => (prose(key, value) ? undefined : value));
      return query === 'raw' ? `export default ${JSON.stringify(plain)}` : plain;
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [svelte(), plainSchemas(), fontLicences(), offline(), compress()],
  worker: { format: 'es', plugins: () => [plainSchemas()] },
  server: { fs: { allow: ['..'] } },
  build: { target: 'es2022', assetsInlineLimit: 0 },
  test: { include: ['test/**/*.test.ts'], environment: 'node' },
});
