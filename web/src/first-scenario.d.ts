/** The plan that the page opens first, and the text of its file; vite.config.ts reads it when the page is built. */
declare module 'virtual:first-scenario' {
  export const plan: import('./scenario').Scenario;
  export const text: string;
}
