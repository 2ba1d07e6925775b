/**
 * Writes src/scenario.ts from the JSON Schema that the built module hands out.
 * `test/door.test.ts` fails when the two differ; then run `npm run types`.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';
import { initSync, scenarioSchema } from '../src/wasm/sim_wasm.js';

/** The TypeScript types of a scenario file. */
export async function scenarioTypes(schemaText) {
  const schema = JSON.parse(schemaText, (key, value) => {
    // Every type has its own name in `$defs`; titles would add a second one.
    if (value && typeof value === 'object') delete value.$schema;
    return value;
  });
  return compile(schema, 'Scenario', {
    bannerComment: '/* Made by scripts/types.mjs from the schema of the scenario file. Do not edit. */',
    additionalProperties: false,
    format: true,
    style: { singleQuote: true, printWidth: 120 },
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  initSync({ module: readFileSync(new URL('../src/wasm/sim_wasm_bg.wasm', import.meta.url)) });
  const target = new URL('../src/scenario.ts', import.meta.url);
  writeFileSync(target, await scenarioTypes(scenarioSchema()));
  console.log('src/scenario.ts');
}
