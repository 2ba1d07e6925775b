// Die deutschen Worte der Tabellen, Zeile für Zeile. Zusammengesetzt werden sie beim Bauen der Seite (vite.config.ts), damit
// die englischen Texte, nach denen sie gefunden werden, nicht ein zweites Mal geladen werden. Was fehlt, bleibt englisch.

import type { Check, Parameter, Sentence, TableWords } from '../../../evidence/rows.ts';
import { checks, notes, published } from './checks.ts';
import { left } from './left.ts';
import { parameters } from './parameters.ts';
import { sources } from './sources.ts';

/** Wörter in Einheiten; Zeichen wie kg sind überall gleich. */
const UNITS: Record<string, string> = {
  bee: 'Biene',
  bees: 'Bienen',
  cell: 'Zelle',
  cells: 'Zellen',
  cups: 'Näpfchen',
  'day of the year': 'Tag im Jahr',
  'day of year': 'Tag im Jahr',
  drones: 'Drohnen',
  eggs: 'Eier',
  frames: 'Waben',
  mite: 'Milbe',
  mites: 'Milben',
  years: 'Jahre',
};

/** Punkt und Komma in Zahlen tauschen die Plätze. */
const numbers = (text: string) => text.replace(/\d+(?:[.,]\d+)+/g, (number) => number.replace(/[.,]/g, (mark) => (mark === '.' ? ',' : '.')));

/** Ein Text, der nur aus Zahlen und Einheiten besteht. */
function figures(text: string): string | undefined {
  if (/\p{L}/u.test(text.replace(/°C|\b(?:to|d|h|g|kg|mg|lb|cm|km)\b/g, ''))) return undefined;
  return numbers(text).replace(/ to /g, ' bis ').replace(/\bd\b/g, 'Tage');
}

/** Namen, Jahre und Titel, ohne ein Wort dazwischen: Sie bleiben, wie sie sind. */
function cited(text: string): string | undefined {
  return /(?<![\p{L}\d.'-])\p{Ll}{2,}/u.test(text.replace(/\bet al\.|\bin (?=\p{Lu})/gu, '')) ? undefined : text;
}

const FROM_MEMORY = ' (from memory)';

/** Die Teile einer Quelle, die für sich stehen, und die Zeichen zwischen ihnen. */
export const parts = (source: string) => source.split(/(?<!\s)([;:] )(?![^(]*\))/);

/** Ein Teil ohne den Hinweis, dass er aus dem Gedächtnis ist. */
export const bare = (part: string) => (part.endsWith(FROM_MEMORY) ? part.slice(0, -FROM_MEMORY.length) : part);

function source(text: string): string | undefined {
  const words = parts(text).map((part, i) => {
    const stem = bare(part);
    const own = i % 2 === 1 ? part : (sources[stem] ?? figures(stem) ?? cited(stem));
    return own && stem !== part ? `${own} (aus dem Gedächtnis)` : own;
  });
  return words.every((word) => word !== undefined) ? words.join('') : undefined;
}

function unit(text: string): string | undefined {
  if (text === 'd') return 'Tage';
  const words = text.split('/').map((part) => UNITS[part] ?? (/\p{Ll}{4,}/u.test(part) ? undefined : numbers(part)));
  return words.every((word) => word !== undefined) ? words.join('/') : undefined;
}

/** Was verglichen wird, ohne den Ort, und der Ort mit dem Jahr, der bleibt, wie er ist. */
export function placed(check: string): [what: string, place: string] {
  const place = /, (?:New York|Seattle)(?: \d{4})?$/.exec(check)?.[0] ?? '';
  return [check.slice(0, check.length - place.length), place];
}

function compared(check: string): string | undefined {
  const [what, place] = placed(check);
  return what in checks ? `${checks[what]}${place}` : undefined;
}

/** Die Worte zu den Zeilen der Tabellen. */
export function german(rows: { checks: Check[]; parameters: Parameter[]; left: Sentence[] }): TableWords {
  return {
    checks: rows.checks.map((row) => ({
      check: compared(row.check),
      source: source(row.source),
      published: published[row.published] ?? figures(row.published),
      unit: unit(row.unit),
      note: notes[row.note] ?? figures(row.note),
    })),
    parameters: rows.parameters.map((row) => ({
      doc: parameters[row.section]?.[row.doc.trim()],
      source: source(row.source),
      unit: unit(row.unit),
    })),
    left: rows.left.map(({ text }) => ({ text: left[text] })),
  };
}
