import { mount } from 'svelte';
import App from './App.svelte';
import './style.css';

const target = document.getElementById('page');
if (!target) throw new Error('The page has no element to be drawn in.');
mount(App, { target });
