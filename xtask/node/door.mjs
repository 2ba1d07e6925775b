// The built WebAssembly module under Node.js, and scenarios with the weather files that they name.
import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Explorer, catalogue, open } from '../../web/scripts/model.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

export const { brakes, columns, records } = catalogue();

/** Reads a scenario file; `explorer` gets the weather file that it names. */
export function load(file) {
  const explorer = new Explorer();
  const scenario = tried(() => open(readFileSync(file)));
  const record = scenario.weather.record;
  if (record) {
    const builtIn = records.find((one) => one.name === record);
    const path = builtIn ? join(root, 'scenarios/weather', builtIn.file) : join(dirname(file), record);
    explorer.keepFile(builtIn ? basename(path) : record, readFileSync(path));
  }
  return { explorer, scenario };
}

/** The result of `work`; the model's faults, which are plain objects, become errors with words. */
export function tried(work) {
  try {
    return work();
  } catch (fault) {
    if (fault instanceof Error) throw fault;
    throw new Error(`${fault.kind}: ${fault.place}: ${fault.message}`);
  }
}
