// Prints what WebAssembly makes of many colonies of a scenario: their bands, lived in uneven shares, the verdict on
// visits, and a search for drone frames after them, as one JSON object. Arguments: scenario, mode, members of the bands, days between looks, visits, members of the verdict.
import { readFileSync } from 'node:fs';
import { openVisits } from '../../web/src/wasm/sim_wasm.js';
import { load, tried } from './door.mjs';

const [file, mode, members, every, visits, judged] = process.argv.slice(2);
const { explorer, scenario } = load(file);
const text = JSON.stringify({ ...scenario, mode });

const shares = [];
for (let from = 0, size = 1; from < Number(members); from += size, size += 3) {
  const to = Math.min(from + size, Number(members));
  shares.push(...tried(() => explorer.share(text, Number(every), from, to)));
}
const bands = tried(() => explorer.bands(text, Number(every), Float64Array.from(shares)));
const lines = ['q05', 'q25', 'median', 'q75', 'q95'];
const at = (measure, line, date) => bands.values[(measure * lines.length + line) * bands.dates.length + date];
const dates = bands.dates.map((date, d) => ({
  date,
  measures: bands.measures.map((name, m) => ({ name, ...Object.fromEntries(lines.map((line, l) => [line, at(m, l, d)])) })),
}));
const [book] = tried(() => openVisits(readFileSync(visits), visits));
const verdict = tried(() => explorer.verdict(text, JSON.stringify(book), undefined, Number(judged), () => {}));
const wishes = { goals: ['few-mites'], what: ['drone-frames'], visitsPerWeek: 1, noChemicals: false, jars: 20 };
const today = '2026-01-01';
// In pieces, as the page asks.
const on = () => {
  let left = 50;
  const more = () => (left -= 1) > 0;
  return tried(() => explorer.search(text, JSON.stringify(book), JSON.stringify(wishes), undefined, today, Number(judged), more)).found?.en;
};
let best = on();
while (!best?.finished) best = on();
const { ics: _, ...found } = best;
const { thresholds, risks, weathers } = bands;
console.log(JSON.stringify({ bands: { members: bands.members, weathers, dates, thresholds, risks }, verdict, found }));
