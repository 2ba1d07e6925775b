/**
 * Makes src/fonts from the packages of the two type families: the letters and weights that the page uses, and no more, and their rules.
 * `npm run fonts` after a change of either; the licences of the families ship with the page (vite.config.ts).
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import subsetFont from 'subset-font';

/** The letters of the page's languages, and the marks that its texts have. */
const ASCII = Array.from({ length: 95 }, (_, i) => String.fromCodePoint(0x20 + i)).join('');
const LETTERS = `${ASCII}ÄÖÜßäöü\u00a0–—‘’“”„‚…•‹›°±²³·×−¼½¾′″✓`;
/** What else western Europe writes, of capitals with accents the common ones: in files of their own, fetched where a name has such a letter. */
const ACCENTS = 'ÅÆÇÉÑØàáâãåæçèéêëìíîïñòóôõøùúû«»¡¿€';

/** Kerning, ligatures, and figures of one height and width (style.css); not small capitals and the like. */
const keepFeatures = ['kern', 'liga', 'lnum', 'tnum'];
/** For lines that run downward. */
const dropTables = ['vhea', 'vmtx'];

const literata = { family: 'Literata', from: 'literata/files/literata-latin-wght-normal', wght: { min: 400, max: 600 } };
const commissioner = { family: 'Commissioner', from: 'commissioner/files/commissioner-latin-wght-normal', wght: { min: 400, max: 650 } };
const FONTS = [
  { ...literata, to: 'literata', letters: LETTERS },
  { ...commissioner, to: 'commissioner', letters: LETTERS },
  { ...literata, to: 'literata-accents', letters: ACCENTS },
  { ...commissioner, to: 'commissioner-accents', letters: ACCENTS },
  // The page brings it by itself, once its first screen stands (italic.ts).
  { from: 'literata/files/literata-latin-wght-italic', to: 'literata-italic', wght: 400, letters: LETTERS + ACCENTS },
];

/** The rule by which the page knows a font; what comes later goes before for its letters. */
function face({ family, to, wght, letters }) {
  const codes = [...letters].map((letter) => `U+${letter.codePointAt(0).toString(16)}`).join(', ');
  return `@font-face {
  font-family: ${family};
  src: url('./${to}.woff2') format('woff2');
  font-weight: ${wght.min} ${wght.max};
  font-display: swap;${letters === ACCENTS ? `\n  unicode-range: ${codes};` : ''}
}
`;
}

const folder = new URL('../src/fonts/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const { from, to, wght, letters } of FONTS) {
  const whole = readFileSync(new URL(`../node_modules/@fontsource-variable/${from}.woff2`, import.meta.url));
  const part = await subsetFont(whole, letters, { targetFormat: 'woff2', variationAxes: { wght }, keepFeatures, dropTables });
  writeFileSync(new URL(`${to}.woff2`, folder), part);
  console.log(`src/fonts/${to}.woff2, ${part.length} of ${whole.length} bytes`);
}
const rules = FONTS.filter(({ family }) => family).map(face);
writeFileSync(new URL('faces.css', folder), `/* Made by scripts/fonts.mjs. */\n${rules.join('')}`);
