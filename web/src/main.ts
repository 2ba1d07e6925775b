import { mount } from 'svelte';
import { plan, text } from 'virtual:shipped';
import App from './App.svelte';
import { keepOffline } from './offline.svelte';
import { RECORDS } from './records';
import { Session } from './session.svelte';
import './style.css';
import { chooseFirst } from './text/index.svelte';

/** The page waits so long, at the most, until its first season is asked for, ms. */
const ASKED_WITHIN_MS = 300;

const target = document.getElementById('page');
if (!target) throw new Error('The page has no element to be drawn in.');
const worker = () => new Worker(new URL('./sim.worker.ts', import.meta.url), { type: 'module' });
const session = new Session(worker, RECORDS);
await chooseFirst();
const started = session.start(plan, text);
// A worker begins, and files come, when the page pauses; then the season is made while the page draws what stands around it.
await Promise.race([session.model.asked, started, new Promise((resolve) => setTimeout(resolve, ASKED_WITHIN_MS))]);
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
