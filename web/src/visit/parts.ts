/** What a comb on a visit sheet is drawn in, and how it is kept: a letter for each of its parts, from the top down. */

/** Parts that a frame is drawn in: quarters and thirds both fall on them. */
export const PARTS = 12;

/** What a part of a comb can hold, and the letter that is kept for it. */
export const LETTERS = { brood: 'b', honey: 'h', pollen: 'p', empty: 'e', undrawn: 'u', drone: 'd' } as const;
export type Content = keyof typeof LETTERS;
/** Not looked at. */
export const BLANK = '.';
/** Somebody said that no brood is here; nothing else is known of it. */
export const NO_BROOD = 'n';
