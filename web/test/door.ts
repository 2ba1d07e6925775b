/** Loads the built module under Node.js, as the page's worker loads it in the browser. */
import { readdirSync, readFileSync } from 'node:fs';
import { catalogue, Explorer, open } from '../scripts/model.mjs';
import type { Scenario } from '../src/scenario';

export { open, save } from '../scripts/model.mjs';

const folder = new URL('../../scenarios/', import.meta.url);

export const scenarioFiles = readdirSync(folder).filter((name) => name.endsWith('.toml'));

export function scenarioFile(name: string): Uint8Array {
  return readFileSync(new URL(name, folder));
}

export function scenario(name: string): Scenario {
  return open(scenarioFile(name));
}

/** An explorer that has every shipped weather record. */
export function explorer(): Explorer {
  const made = new Explorer();
  for (const file of new Set(catalogue().records.map((record) => record.file))) {
    made.keepFile(file, readFileSync(new URL(`weather/${file}`, folder)));
  }
  return made;
}

export function run(made: Explorer, name: string, plan: Scenario) {
  return made.run(name, JSON.stringify(plan));
}

/** What a call throws. */
export function thrown(call: () => unknown): unknown {
  try {
    call();
  } catch (fault) {
    return fault;
  }
  throw new Error('expected a fault');
}
