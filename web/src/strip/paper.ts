/** What stands above and below the season on paper: fetched when it is printed. */
export { default as PaperFoot } from './PaperFoot.svelte';
export { default as PaperHead } from './PaperHead.svelte';
