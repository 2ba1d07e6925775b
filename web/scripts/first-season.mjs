/**
 * Which functions of the model a first visit needs until its season, story and combs stand: plays that opening, as the page
 * asks for it, on a module that notes which of its functions are entered (`cargo xtask wasm` makes one, and parts the
 * page's module by what is printed here: their numbers, as JSON).
 *
 * Argument: the module's file. Its glue is taken from src/wasm.
 */
import { readFileSync } from 'node:fs';

const module = new WebAssembly.Module(readFileSync(process.argv[2]));
const scenarios = new URL('../../scenarios/', import.meta.url);

/** The languages of the page. */
const LANGUAGES = ['en', 'de'];
const UNITS = ['metric', 'us'];
/** The day that the page shows first, counted as src/session.svelte.ts does. */
const FIRST_SHOWN = 42;

let workers = 0;
/** A module that has done nothing yet, like that of a new worker: what is done once only is done in each. */
async function worker() {
  workers += 1;
  const glue = await import(`../src/wasm/sim_wasm.js?${workers}`);
  return { glue, exported: glue.initSync({ module }) };
}

// Vite reads the first plan when it builds the page (vite.config.ts): that is none of the opening.
const { open, catalogue } = (await worker()).glue;
const plan = open(readFileSync(new URL('wet-spring.toml', scenarios)));
const { file } = catalogue().records.find(({ name }) => name === plan.weather.record);
const record = readFileSync(new URL(`weather/${file}`, scenarios));
const shown = new Date(Date.parse(plan.start.date) + FIRST_SHOWN * 86_400_000).toISOString().slice(0, 10);

/** What the worker of the page is asked. */
function tellSeason({ Explorer, catalogue }, language, units) {
  const explorer = new Explorer();
  explorer.speak(language);
  catalogue(language);
  explorer.keepFile(file, record);
  explorer.run('plan', JSON.stringify(plan), units);
  // Its twin goes without the feed.
  explorer.run('twin', JSON.stringify({ ...plan, feed: [] }), units);
  explorer.story('plan', shown, units);
}

/** What the worker of the combs is asked. */
function drawCombs({ Explorer }, language) {
  const explorer = new Explorer();
  explorer.speak(language);
  explorer.keepFile(file, record);
  explorer.cells(JSON.stringify(plan), shown);
}

const entered = new Set();
async function note(opening) {
  const { glue, exported } = await worker();
  try {
    opening(glue);
  } catch (fault) {
    // The model's faults are plain objects.
    throw fault instanceof Error ? fault : new Error(`${fault.kind}: ${fault.place}: ${fault.message}`);
  }
  for (const [name, { value }] of Object.entries(exported)) {
    const number = /^entered(\d+)$/.exec(name)?.[1];
    if (number && value) entered.add(Number(number));
  }
}
for (const language of LANGUAGES) {
  for (const units of UNITS) await note((glue) => tellSeason(glue, language, units));
  await note((glue) => drawCombs(glue, language));
}
console.log(JSON.stringify([...entered].sort((a, b) => a - b)));
