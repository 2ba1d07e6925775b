/** Whether the page is as narrow as a phone's, as the rules of style have it. */
import { MediaQuery } from 'svelte/reactivity';

const narrow = new MediaQuery('(max-width: 719px)');

export const phone = (): boolean => narrow.current;
