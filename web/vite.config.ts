import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { compress } from './scripts/compress.mjs';
import { offline } from './scripts/offline.mjs';
import { type Check, type Parameter, notModelled } from './src/evidence/rows.ts';
import { german } from './src/text/de/evidence/words.ts';

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

/** Of README.md the page has the list of what is not modelled alone. */
function listOfReadme(): Plugin {
  return {
    name: 'list-of-readme',
    enforce: 'pre',
    load(id) {
      const [file, query] = id.split('?');
      if (!file?.endsWith('README.md') || query !== 'list') return null;
      this.addWatchFile(file);
      return `export default ${JSON.stringify(notModelled(readFileSync(file, 'utf8')))}`;
    },
  };
}

/** Puts the German words of the tables of the Evidence view together, row by row, so that the page fetches them alone. */
function germanTables(): Plugin {
  const module = 'virtual:german-tables';
  return {
    name: 'german-tables',
    // Without the usual null byte, of which the file's name would get an underscore first: some hosts of static files pass those over.
    resolveId: (id) => (id === module ? id : null),
    load(id) {
      if (id !== module) return null;
      const [checks, parameters, readme] = ['src/evidence/checks.json', 'src/evidence/parameters.json', '../README.md'].map((file) => {
        const url = new URL(file, import.meta.url);
        this.addWatchFile(fileURLToPath(url));
        return readFileSync(url, 'utf8');
      }) as [string, string, string];
      const rows = { checks: JSON.parse(checks) as Check[], parameters: JSON.parse(parameters) as Parameter[], left: notModelled(readme) };
      return `export default ${JSON.stringify(german(rows))}`;
    },
  };
}

/** What the page need not wait for the model for, asked when the page is built: the plan that it opens first, and its weather records. */
function shipped(): Plugin {
  const module = 'virtual:shipped';
  const file = new URL('../scenarios/wet-spring.toml', import.meta.url);
  return {
    name: 'shipped',
    resolveId: (id) => (id === module ? id : null),
    async load(id) {
      if (id !== module) return null;
      this.addWatchFile(fileURLToPath(file));
      const bytes = readFileSync(file);
      // Not before it is wanted: the configuration is read where the model was not built, too.
      const { catalogue, open } = (await import(new URL('./scripts/model.mjs', import.meta.url).href)) as typeof import('./scripts/model.mjs');
      const records = catalogue('en').records.map(({ name, file }) => [name, file]);
      return Object.entries({ plan: open(bytes), text: bytes.toString(), records })
        .map(([name, value]) => `export const ${name} = ${JSON.stringify(value)};`)
        .join('\n');
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [svelte(), plainSchemas(), listOfReadme(), germanTables(), shipped(), fontLicences(), offline(), compress()],
  worker: { format: 'es' },
  server: { fs: { allow: ['..'] } },
  build: { target: 'es2022', assetsInlineLimit: 0 },
  // A slow and busy machine may take its time.
  test: { include: ['test/**/*.test.ts'], environment: 'node', testTimeout: 60_000, hookTimeout: 60_000 },
});
