/**
 * Makes src/fonts from the packages of the two type families: the letters and weights that the page uses, and no more.
 * `npm run fonts` after a change of either; the licences of the families ship with the page (vite.config.ts).
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import subsetFont from 'subset-font';

/** The letters of western Europe, of capitals with accents the common ones, and the marks that texts of the page have. */
const ASCII = Array.from({ length: 95 }, (_, i) => String.fromCodePoint(0x20 + i)).join('');
const LETTERS = `${ASCII}ÄÅÆÇÉÑÖØÜßàáâãäåæçèéêëìíîïñòóôõöøùúûü\u00a0–—‘’“”„‚…•‹›«»¡¿€°±²³·×−¼½¾′″✓`;

/** Kerning, ligatures, and figures of one height and width (style.css); not small capitals and the like. */
const keepFeatures = ['kern', 'liga', 'lnum', 'tnum', 'ccmp', 'locl'];
/** For lines that run downward. */
const dropTables = ['vhea', 'vmtx'];

const FONTS = [
  { from: 'literata/files/literata-latin-wght-normal', to: 'literata', wght: { min: 400, max: 600 } },
  { from: 'literata/files/literata-latin-wght-italic', to: 'literata-italic', wght: 400 },
  { from: 'commissioner/files/commissioner-latin-wght-normal', to: 'commissioner', wght: { min: 400, max: 650 } },
];

const folder = new URL('../src/fonts/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const { from, to, wght } of FONTS) {
  const whole = readFileSync(new URL(`../node_modules/@fontsource-variable/${from}.woff2`, import.meta.url));
  const part = await subsetFont(whole, LETTERS, { targetFormat: 'woff2', variationAxes: { wght }, keepFeatures, dropTables });
  writeFileSync(new URL(`${to}.woff2`, folder), part);
  console.log(`src/fonts/${to}.woff2, ${part.length} of ${whole.length} bytes`);
}
