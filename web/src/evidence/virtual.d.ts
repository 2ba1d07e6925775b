/** The German words of the tables, which vite.config.ts puts together when the page is built. */
declare module 'virtual:german-tables' {
  const words: import('./rows').TableWords;
  export default words;
}
