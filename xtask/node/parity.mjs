// Prints what WebAssembly makes of the scenario files given, in both modes: one JSON object a line.
import { brakes, columns, load, tried } from './door.mjs';

for (const file of process.argv.slice(2)) {
  for (const mode of ['mean', 'random']) {
    const { explorer, scenario } = load(file);
    const outcome = tried(() => explorer.run('plan', JSON.stringify({ ...scenario, mode })));
    // Sixteen hexadecimal digits for each number: its bits, which no printing or reading can round.
    const bits = new BigUint64Array(outcome.values.buffer, outcome.values.byteOffset, outcome.values.length);
    const hex = Array.from(bits, (value) => value.toString(16));
    const values = Object.fromEntries(
      columns.map(({ name }, i) => [name, hex.slice(i * outcome.days, (i + 1) * outcome.days)]),
    );
    const brake = Array.from(outcome.brakes, (code) => brakes[code].name);
    console.log(JSON.stringify({ file, mode, digest: outcome.digest, values, brake }));
  }
}
