import { mount } from 'svelte';
import { plan, text } from 'virtual:shipped';
import App from './App.svelte';
import { keepOffline } from './offline.svelte';
import { RECORDS } from './records';
import { Session } from './session.svelte';
import './style.css';
import { chooseFirst } from './text/index.svelte';

/** The page waits so long for its first season before it draws itself without one, ms. */
const TOGETHER_MS = 150;

const target = document.getElementById('page');
if (!target) throw new Error('The page has no element to be drawn in.');
const worker = () => new Worker(new URL('./sim.worker.ts', import.meta.url), { type: 'module' });
const session = new Session(worker, RECORDS);
await chooseFirst();
const started = session.start(plan, text);
// A worker begins when the page pauses. A season that is there by then is drawn together with what stands around it.
await Promise.race([started, new Promise((resolve) => setTimeout(resolve, TOGETHER_MS))]);
mount(App, {
  target,
  props: {
    session,
    // Not before the first season stands: all that is kept would share the line with it.
    opened: () => {
      if (import.meta.env.PROD) void keepOffline();
    },
  },
});
