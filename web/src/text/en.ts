// Every text of the page in English. A section is a part of the page; a text with values in it is a function.
// The other languages have the same shape: `Catalogue` is the type of this object.

import { cautions } from './en/cautions';
import { care, evidence } from './en/evidence';
import { hive } from './en/hive';
import { bands, standing } from './en/judged';
import { moves } from './en/moves';
import { calendar, page } from './en/page';
import { plans, twin } from './en/plans';
import { strip } from './en/strip';
import { yard } from './en/yard';

export const en = {
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

export type Catalogue = typeof en;
