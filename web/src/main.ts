import { mount } from 'svelte';
import App from './App.svelte';
import { keepOffline } from './offline.svelte';
import './style.css';
import { chooseFirst } from './text/index.svelte';

const target = document.getElementById('page');
if (!target) throw new Error('The page has no element to be drawn in.');
await chooseFirst();
mount(App, { target });

// Not before the page itself is there: it would share the line with it. Texts of another language may have come later still.
if (import.meta.env.PROD) {
  if (document.readyState === 'complete') void keepOffline();
  else addEventListener('load', () => void keepOffline());
}
