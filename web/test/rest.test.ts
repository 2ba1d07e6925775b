/** The first part of the model alone, as a first visit has it (`xtask/src/parts.rs`). */
import { readFileSync } from 'node:fs';
import { plan } from 'virtual:shipped';
import { beforeEach, expect, it } from 'vitest';
import { twinOf } from '../src/plan';
import { SeasonView } from '../src/season';
import * as both from './door';

type Glue = typeof import('../src/wasm/sim_wasm.js');

const part = (name: string) => new WebAssembly.Module(readFileSync(new URL(`../src/wasm/${name}`, import.meta.url)));
const first = part('sim_wasm_bg.wasm');
const rest = part('sim_wasm_rest.wasm');

let workers = 0;
let brought = 0;
let glue: Glue;
/** For good, as in a worker: what is collected is freed, whoever brings the rest by then. */
const explorers: object[] = [];

/** A module of its own for each test; the rest comes when it is called. */
beforeEach(async () => {
  workers += 1;
  brought = 0;
  glue = (await import(/* @vite-ignore */ `../src/wasm/sim_wasm.js?alone${workers}`)) as Glue;
  const exported = glue.initSync({ module: first });
  Object.assign(globalThis, {
    combcastBringRest: () => {
      brought += 1;
      new WebAssembly.Instance(rest, { first: exported as unknown as WebAssembly.ModuleImports });
    },
  });
});

/** All that the page asks of it until its first screen stands. */
function opening(language: string) {
  const explorer = new glue.Explorer();
  explorers.push(explorer);
  explorer.speak(language);
  const catalogue = glue.catalogue(language);
  const file = catalogue.records.find(({ name }) => name === plan.weather.record)?.file ?? '';
  explorer.keepFile(file, readFileSync(new URL(`../../scenarios/weather/${file}`, import.meta.url)));
  const season = new SeasonView(explorer.run('plan', JSON.stringify(plan), 'metric'), catalogue);
  explorer.run('twin', JSON.stringify(twinOf(plan, 'feed', null)), 'metric');
  const story = explorer.story('plan', '2012-06-11', 'metric');
  const cells = explorer.cells(JSON.stringify(plan), '2012-06-11');
  return { explorer, season, story, cells };
}

it.each(['en', 'de'])('is enough for the first screen, in %s', (language) => {
  const { story, cells } = opening(language);
  expect(JSON.stringify(story)).toContain('43');
  expect(cells.frames.length).toBeGreaterThan(0);
  expect(brought).toBe(0);
});

it('brings the rest in the middle of a call, once, and what it then says is the same', () => {
  const { explorer } = opening('en');
  const text = glue.save(JSON.stringify(plan));
  expect(brought).toBe(1);
  expect(text).toBe(both.save(JSON.stringify(plan)));
  const share = (one: typeof explorer) => one.share(JSON.stringify(plan), 7, 0, 3);
  expect(share(explorer)).toEqual(share(both.explorer()));
  expect(brought).toBe(1);
});

it('tells a fault of a file like the whole', () => {
  const faulty = new TextEncoder().encode('name = 3');
  expect(both.thrown(() => glue.open(faulty))).toEqual(both.thrown(() => both.open(faulty)));
  expect(brought).toBe(1);
});
