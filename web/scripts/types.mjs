/**
 * Writes src/scenario.ts from the JSON Schema of the scenario file, which the program's tests hold against the program.
 * `test/door.test.ts` fails when the two differ; then run `npm run types`.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';

/** The schema as text. */
export const schemaText = () => readFileSync(new URL('../../scenarios/scenario.schema.json', import.meta.url), 'utf8');

/** The TypeScript types of a scenario file. */
export async function scenarioTypes() {
  const schema = JSON.parse(schemaText(), (key, value) => {
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
  const target = new URL('../src/scenario.ts', import.meta.url);
  writeFileSync(target, await scenarioTypes());
  console.log('src/scenario.ts');
}
