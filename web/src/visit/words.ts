/**
 * A visit's drawing in words.
 */
import type { Catalogue } from '../text/en';
import { bands, PARTS, type SheetFrame, wholly } from './sheet';

type Words = Catalogue['visit'];

/** Twelfths of a frame: `a third`. */
export const shareWord = (parts: number, words: Words): string => words.shares[Math.min(Math.max(parts, 0), PARTS)] ?? '';

/** What is drawn on a frame. */
export function sayFrame(frame: SheetFrame, words: Words): string {
  const drawn = bands(frame.comb);
  const said = drawn.map(({ content, from, to }) => words.bandSaid(words.inText[content], shareWord(to - from, words)));
  if (drawn.length > 0 && !wholly(frame.comb)) said.push(words.restNotLookedAt);
  if (frame.bees !== null) said.push(words.bandSaid(words.inText.bees, shareWord(frame.bees, words)));
  return said.length > 0 ? said.join('; ') : words.notLookedAt;
}
