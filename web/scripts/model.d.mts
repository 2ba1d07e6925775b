export * from '../src/wasm/sim_wasm.js';
