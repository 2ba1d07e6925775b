/**
 * A visit's drawing in words.
 */
import type { BelowTexts } from '../text/below';
import { type UnitSystem, withUnit } from '../units';
import type { Visit } from '../visits';
import { quarters } from '../words';
import { bands, BLANK, type HeldBack, NO_BROOD, PARTS, type Sheet, type SheetFrame } from './sheet';

type Words = BelowTexts['visit'];

/** Twelfths of a frame: `a third`. */
export const shareWord = (parts: number, words: Words): string => words.shares[Math.min(Math.max(parts, 0), PARTS)] ?? '';

/** What is drawn on a frame. */
export function sayFrame(frame: SheetFrame, words: Words): string {
  const drawn = bands(frame.comb);
  const said = drawn.map(({ content, from, to }) => words.bandSaid(words.inText[content], shareWord(to - from, words)));
  if (frame.comb.includes(NO_BROOD)) said.push(drawn.length > 0 ? words.restNoBrood : words.noBroodSaid);
  else if (drawn.length > 0 && frame.comb.includes(BLANK)) said.push(words.restNotLookedAt);
  if (frame.bees !== null) said.push(words.bandSaid(words.inText.bees, shareWord(frame.bees, words)));
  return said.length > 0 ? said.join('; ') : words.notLookedAt;
}

/** Which figures are not written down, and because of which box. */
export function sayHeldBack({ box, what, unseen, unfinished, untouched }: HeldBack, { boxes }: Sheet, words: Words): string {
  const name = words.box(box, boxes.length, boxes[box]?.medium ?? false);
  const held = what.map((one) => words.held[one]);
  return words.heldBack(held, untouched ? words.boxUnseen(name) : words.framesOpen(name, unseen, unfinished));
}

/** The record of a visit in a line: what was written down, and nothing else. */
export function sayVisit(visit: Visit, units: UnitSystem, words: Words): string {
  const { frames_of_bees, frames_of_brood, frames_drawn, frames_of_stores, stores_kg, eggs_seen, queen_seen, wash } = visit;
  const sum = (boxes: readonly number[]) => quarters(boxes.reduce((all, one) => all + one, 0));
  const said: string[] = [];
  if (frames_of_bees?.length) said.push(words.saidFrames(sum(frames_of_bees), words.inText.bees));
  if (frames_of_brood?.length) said.push(words.saidFrames(sum(frames_of_brood), words.inText.brood));
  if (frames_drawn?.length) said.push(words.saidDrawn(sum(frames_drawn)));
  if (stores_kg != null) said.push(words.saidStores(withUnit(stores_kg, 'stores', units)));
  else if (frames_of_stores != null) said.push(words.saidFrames(quarters(frames_of_stores), words.inText.honey));
  if (eggs_seen != null) said.push(eggs_seen ? words.saidEggs : words.saidNoEggs);
  if (queen_seen != null) said.push(queen_seen ? words.saidQueen : words.saidNoQueen);
  const cells = (visit.charged_cells ?? 0) + (visit.capped_cells ?? 0);
  if (visit.charged_cells != null || visit.capped_cells != null) said.push(words.saidCells(cells));
  if (wash) said.push(words.saidWash(wash.mites, wash.bees ?? 300));
  return said.join(', ');
}
