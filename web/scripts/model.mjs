/** The built module under Node.js, with both of its parts (`xtask/src/parts.rs`) linked at once. */
import { readFileSync } from 'node:fs';
import { initSync } from '../src/wasm/sim_wasm.js';

const file = (name) => readFileSync(new URL(`../src/wasm/${name}`, import.meta.url));

const first = initSync({ module: file('sim_wasm_bg.wasm') });
new WebAssembly.Instance(new WebAssembly.Module(file('sim_wasm_rest.wasm')), { first });

export * from '../src/wasm/sim_wasm.js';
