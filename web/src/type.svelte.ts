/**
 * Large type, to be read from the last row of a class: by itself on a very large window, or as somebody chose.
 * The sizes are in style.css under `data-type`; drawings that measure text take their factor from here.
 */
const KEY = 'combcast type';
/** As wide as a projector or a wall screen is, px. */
const WIDE = matchMedia('(min-width: 1800px)');

function kept(): boolean | null {
  try {
    const word = localStorage.getItem(KEY);
    return word === 'large' ? true : word === 'usual' ? false : null;
  } catch {
    return null;
  }
}

let chosen = $state(kept());
let wide = $state(WIDE.matches);
WIDE.addEventListener('change', ({ matches }) => {
  wide = matches;
  mark();
});

/** Whether type is large. */
export const large = (): boolean => chosen ?? wide;

/** The usual size of letters in a browser, px. */
const USUAL = 16;
const lettersNow = (): number => Math.max(1, Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / USUAL || 1);
let letters = $state(lettersNow());
// As wide as the letters are high: no other event tells that somebody has made them larger.
const probe = document.createElement('div');
probe.style.cssText = 'position: absolute; visibility: hidden; width: 1rem; height: 0';
document.body.append(probe);
new ResizeObserver(() => (letters = lettersNow())).observe(probe);

/** How much larger a reader has made the letters of the browser, from 1. */
export const lettersFactor = (): number => letters;

/** How much larger figures and labels of drawings are than usual. */
export const typeFactor = (): number => (large() ? 1.4 : 1) * letters;

export function showLarge(on: boolean): void {
  chosen = on === wide ? null : on;
  try {
    if (chosen === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, on ? 'large' : 'usual');
  } catch {
    // Forbidden: it holds until the page is closed.
  }
  mark();
}

function mark(): void {
  document.documentElement.dataset.type = large() ? 'large' : 'usual';
}
mark();
