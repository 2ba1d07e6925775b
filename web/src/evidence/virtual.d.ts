/** The German words of the tables, which vite.config.ts puts together when the page is built. */
declare module 'virtual:german-tables' {
  const words: import('./rows').TableWords;
  export default words;
}

/** What the model leaves out, as README.md lists it. */
declare module '*README.md?list' {
  import type { Sentence } from './rows';
  const left: Sentence[];
  export default left;
}
