/** What the page knows of the model before the model is there; vite.config.ts asks for it when the page is built. */
declare module 'virtual:shipped' {
  /** The plan that the page opens first, and the text of its file. */
  export const plan: import('./scenario').Scenario;
  export const text: string;
  /** The weather records that come with the page: name and file. */
  export const records: readonly (readonly [name: string, file: string])[];
}
