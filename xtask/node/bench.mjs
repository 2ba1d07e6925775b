// Colony-days per second of the model in WebAssembly, as one JSON object; `cargo xtask bench` sets it
// beside the native program's, which does the same work (benches/throughput.rs).
import { basename } from 'node:path';
import { load, tried } from './door.mjs';

const SEASONS = 100;
const BATCHES = 50;

/** The best of some repetitions of `work`, in seconds, and what it returned. */
function best(repetitions, work) {
  let seconds = Infinity;
  let result;
  for (let i = 0; i < repetitions; i += 1) {
    const started = performance.now();
    result = tried(work);
    seconds = Math.min(seconds, (performance.now() - started) / 1000);
  }
  return { seconds, result };
}

const all = {};
for (const file of process.argv.slice(2)) {
  const { explorer, scenario } = load(file);
  const json = (mode) => JSON.stringify({ ...scenario, mode });
  const { days } = tried(() => explorer.run('plan', json('mean')));
  const mean = best(BATCHES, () => explorer.bareSeasons(json('mean'), SEASONS));
  const random = best(BATCHES, () => explorer.bareSeasons(json('random'), SEASONS));
  const slider = best(50, () => explorer.run('plan', json('mean')));
  all[basename(file, '.toml')] = {
    mean: (SEASONS * days) / mean.seconds,
    random: (SEASONS * days) / random.seconds,
    mean_checksum: mean.result,
    random_checksum: random.result,
    slider_ms: slider.seconds * 1000,
  };
}
console.log(JSON.stringify(all));
