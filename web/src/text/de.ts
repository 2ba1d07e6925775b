// Alle Texte der Seite auf Deutsch, Teil für Teil wie in en.ts. Wer die Seite liest, wird mit „du“ angesprochen.

import { cautions } from './de/cautions';
import { care, evidence } from './de/evidence';
import { hive } from './de/hive';
import { bands, standing } from './de/judged';
import { moves } from './de/moves';
import { calendar, page } from './de/page';
import { plans, twin } from './de/plans';
import { strip } from './de/strip';
import { yard } from './de/yard';
import type { Catalogue } from './en';

export const de: Catalogue = {
  page,
  calendar,
  cautions,
  strip,
  hive,
  moves,
  twin,
  yard,
  plans,
  bands,
  standing,
  care,
  evidence,
};
