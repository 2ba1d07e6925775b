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

/** How much larger figures and labels of drawings are than usual. */
export const typeFactor = (): number => (large() ? 1.4 : 1);

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
