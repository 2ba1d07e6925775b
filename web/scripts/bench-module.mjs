/**
 * Colony-days per second of the model in WebAssembly, measured in Chromium, where the page runs it; printed as one JSON
 * object. `cargo xtask bench` sets it beside the native program's, which does the same work (benches/throughput.rs).
 *
 * Arguments: scenario files that need no weather record.
 */
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { basename } from 'node:path';
import { chromium } from '@playwright/test';

const built = (name) => readFileSync(new URL(`../src/wasm/${name}`, import.meta.url));
const FILES = {
  '/': ['text/html', '<!doctype html><title>bench</title>'],
  '/sim_wasm.js': ['text/javascript', built('sim_wasm.js')],
  '/sim_wasm_bg.wasm': ['application/wasm', built('sim_wasm_bg.wasm')],
  '/sim_wasm_rest.wasm': ['application/wasm', built('sim_wasm_rest.wasm')],
};
const server = createServer((request, response) => {
  const [type, body] = FILES[request.url] ?? [undefined, undefined];
  response.writeHead(body ? 200 : 404, type && { 'content-type': type });
  response.end(body);
});
await new Promise((listening) => server.listen(0, '127.0.0.1', listening));

/** Runs in the browser: measures one scenario. */
async function measure(text) {
  const SEASONS = 100;
  const BATCHES = 50;
  const { Explorer, default: init, open } = await import('/sim_wasm.js');
  const first = await init({ module_or_path: '/sim_wasm_bg.wasm' });
  await WebAssembly.instantiateStreaming(fetch('/sim_wasm_rest.wasm'), { first });
  // The best of some repetitions: other programs can only slow one down.
  const best = (work) => {
    let seconds = Infinity;
    let result;
    for (let i = 0; i < BATCHES; i += 1) {
      const started = performance.now();
      result = work();
      seconds = Math.min(seconds, (performance.now() - started) / 1000);
    }
    return { seconds, result };
  };
  try {
    const explorer = new Explorer();
    const scenario = open(new TextEncoder().encode(text));
    const json = (mode) => JSON.stringify({ ...scenario, mode });
    const { days } = explorer.run('plan', json('mean'));
    const mean = best(() => explorer.bareSeasons(json('mean'), SEASONS));
    const random = best(() => explorer.bareSeasons(json('random'), SEASONS));
    const slider = best(() => explorer.run('plan', json('mean')));
    return {
      mean: (SEASONS * days) / mean.seconds,
      random: (SEASONS * days) / random.seconds,
      mean_checksum: mean.result,
      random_checksum: random.result,
      slider_ms: slider.seconds * 1000,
    };
  } catch (fault) {
    // The model's faults are plain objects.
    throw fault instanceof Error ? fault : new Error(`${fault.kind}: ${fault.place}: ${fault.message}`);
  }
}

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
  const all = { browser: `Chromium ${browser.version()}`, colonies: {} };
  for (const file of process.argv.slice(2)) {
    all.colonies[basename(file, '.toml')] = await page.evaluate(measure, readFileSync(file, 'utf8'));
  }
  console.log(JSON.stringify(all));
} finally {
  await browser.close();
  server.close();
}
