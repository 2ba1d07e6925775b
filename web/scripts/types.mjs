/**
 * Writes src/scenario.ts and src/visits.ts from the JSON Schemas of the two files, which the program's tests hold against
 * the program. `test/door.test.ts` and `test/visits.test.ts` fail when they differ; then run `npm run types`.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';

const textOf = (file) => readFileSync(new URL(`../../scenarios/${file}`, import.meta.url), 'utf8');

/** The schema of the scenario file as text. */
export const schemaText = () => textOf('scenario.schema.json');

/** The schema of the visits file as text. */
export const visitsSchemaText = () => textOf('visits/visits.schema.json');

function types(text, name, file) {
  const schema = JSON.parse(text, (key, value) => {
    // Every type has its own name in `$defs`; titles would add a second one.
    if (value && typeof value === 'object') delete value.$schema;
    return value;
  });
  return compile(schema, name, {
    bannerComment: `/* Made by scripts/types.mjs from the schema of the ${file} file. Do not edit. */`,
    additionalProperties: false,
    format: true,
    style: { singleQuote: true, printWidth: 120 },
  });
}

/** The TypeScript types of a scenario file. */
export const scenarioTypes = () => types(schemaText(), 'Scenario', 'scenario');

/** The TypeScript types of a file of visits. */
export const visitsTypes = () => types(visitsSchemaText(), 'VisitBook', 'visits');

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [file, made] of [
    ['scenario.ts', scenarioTypes()],
    ['visits.ts', visitsTypes()],
  ]) {
    writeFileSync(new URL(`../src/${file}`, import.meta.url), await made);
    console.log(`src/${file}`);
  }
}
