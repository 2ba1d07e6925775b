import { mount } from 'svelte';
import App from './App.svelte';
import { keepOffline } from './offline.svelte';
import './style.css';
import { chooseFirst } from './text/index.svelte';

const target = document.getElementById('page');
if (!target) throw new Error('The page has no element to be drawn in.');
await chooseFirst();
mount(App, {
  target,
  props: {
    // Not before the first season stands: all that is kept would share the line with it.
    opened: () => {
      if (import.meta.env.PROD) void keepOffline();
    },
  },
});
