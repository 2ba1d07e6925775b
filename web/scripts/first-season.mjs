/**
 * Which functions of the model a first visit needs until its season, story and combs stand: plays that opening, as the page
 * asks for it, on a module that notes which of its functions are entered (`cargo xtask wasm` makes one, and parts the
 * page's module by what is printed here: their numbers, as JSON).
 *
 * Argument: the module's file. Its glue is taken from src/wasm.
 */
import { readFileSync } from 'node:fs';
import { Explorer, catalogue, initSync, open } from '../src/wasm/sim_wasm.js';

const scenarios = new URL('../../scenarios/', import.meta.url);
const exported = initSync({ module: readFileSync(process.argv[2]) });

/** The languages of the page. */
const LANGUAGES = ['en', 'de'];
const UNITS = ['metric', 'us'];
/** The day that the page shows first, counted as src/session.svelte.ts does. */
const FIRST_SHOWN = 42;

const explorer = new Explorer();
try {
  for (const language of LANGUAGES) {
    explorer.speak(language);
    const { records } = catalogue(language);
    // The first scenario of src/App.svelte, and its twin without the feed.
    const plan = open(readFileSync(new URL('wet-spring.toml', scenarios)));
    const { file } = records.find(({ name }) => name === plan.weather.record);
    explorer.keepFile(file, readFileSync(new URL(`weather/${file}`, scenarios)));
    const start = Date.parse(plan.start.date);
    const shown = new Date(start + FIRST_SHOWN * 86_400_000).toISOString().slice(0, 10);
    for (const units of UNITS) {
      explorer.run('plan', JSON.stringify(plan), units);
      explorer.run('twin', JSON.stringify({ ...plan, feed: [] }), units);
      explorer.story('plan', shown, units);
    }
    explorer.cells(JSON.stringify(plan), shown);
  }
} catch (fault) {
  // The model's faults are plain objects.
  throw fault instanceof Error ? fault : new Error(`${fault.kind}: ${fault.place}: ${fault.message}`);
}

const entered = Object.entries(exported).filter(([name, global]) => /^entered\d+$/.test(name) && global.value);
console.log(JSON.stringify(entered.map(([name]) => Number(name.slice('entered'.length))).sort((a, b) => a - b)));
