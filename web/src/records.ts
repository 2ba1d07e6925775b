/** Where each weather record that comes with the page is, by the name of its file. */
const files = import.meta.glob<string>('../../scenarios/weather/*.{csv,dly,txt}', { query: '?url', import: 'default', eager: true });

export const RECORD_URLS: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(files).map(([path, url]) => [path.split('/').pop() ?? path, url]),
);
