/**
 * Makes src/fonts from the packages of the two type families: the letters and weights that the page uses, and no more.
 * `npm run fonts` after a change of either; the licences of the families ship with the page (vite.config.ts).
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import subsetFont from 'subset-font';

/** Latin with the accents of western Europe, and the marks that texts of the page have. */
const range = (from, to) => Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)).join('');
const LETTERS = `${range(0x20, 0x7e)}${range(0xa0, 0xff)}ŒœŠšŽžŸ–—‘’“”„‚…•‹›€−×½¼¾′″°✓`;

const FONTS = [
  { from: 'literata/files/literata-latin-wght-normal', to: 'literata', wght: { min: 400, max: 600 } },
  { from: 'literata/files/literata-latin-wght-italic', to: 'literata-italic', wght: 400 },
  { from: 'commissioner/files/commissioner-latin-wght-normal', to: 'commissioner', wght: { min: 400, max: 650 } },
];

const folder = new URL('../src/fonts/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const { from, to, wght } of FONTS) {
  const whole = readFileSync(new URL(`../node_modules/@fontsource-variable/${from}.woff2`, import.meta.url));
  const part = await subsetFont(whole, LETTERS, { targetFormat: 'woff2', variationAxes: { wght } });
  writeFileSync(new URL(`${to}.woff2`, folder), part);
  console.log(`src/fonts/${to}.woff2, ${part.length} of ${whole.length} bytes`);
}
