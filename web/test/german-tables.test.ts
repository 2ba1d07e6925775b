import { readFileSync } from 'node:fs';
import words from 'virtual:german-tables';
import { describe, expect, it } from 'vitest';
import { type Check, type Parameter, notModelled, said } from '../src/evidence/rows';
import { checks, notes, published } from '../src/text/de/evidence/checks';
import { left } from '../src/text/de/evidence/left';
import { parameters } from '../src/text/de/evidence/parameters';
import { sources } from '../src/text/de/evidence/sources';
import { bare, german, parts, placed } from '../src/text/de/evidence/words';
import { de } from '../src/text/de';
import { en } from '../src/text/en';

const file = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const rows = {
  checks: JSON.parse(file('../src/evidence/checks.json')) as Check[],
  parameters: JSON.parse(file('../src/evidence/parameters.json')) as Parameter[],
  left: notModelled(file('../../README.md')),
};

/** Every text of the tables that has a German one in a list of its own. */
const LISTS: [name: string, german: Record<string, string>, english: string[]][] = [
  ['checks', checks, rows.checks.map(({ check }) => placed(check)[0])],
  ['published', published, rows.checks.map((row) => row.published)],
  ['notes', notes, rows.checks.map(({ note }) => note)],
  ['sources', sources, [...rows.checks, ...rows.parameters].flatMap(({ source }) => parts(source).map(bare))],
  ['left', left, rows.left.map(({ text }) => text)],
  ...Object.entries(parameters).map(([section, own]): [string, Record<string, string>, string[]] => [
    `parameters of ${section}`,
    own,
    rows.parameters.filter((row) => row.section === section).map(({ doc }) => doc.trim()),
  ]),
];

/** The numbers of a text as they stand in English, in order of size. */
function numbers(text: string, thousands: string, point: string): string[] {
  const found = text.match(new RegExp(`\\d+(?:\\${thousands}\\d{3}(?!\\d))*(?:\\${point}\\d+)?`, 'g')) ?? [];
  return found.map((one) => one.replaceAll(thousands, '').replace(point, '.')).toSorted();
}

describe('the German words of the tables', () => {
  it('are there for every row, and the page has them', () => {
    const missing = (['checks', 'parameters', 'left'] as const).flatMap((name) =>
      said(name, rows[name] as never[], words).flatMap((row) => (row.english.length > 0 ? [`${row.english.join(', ')} of ${JSON.stringify(row)}`] : [])),
    );
    expect(missing).toEqual([]);
    expect(words).toEqual(german(rows));
    expect([words.checks.length, words.parameters.length, words.left.length]).toEqual([rows.checks.length, rows.parameters.length, rows.left.length]);
    expect(rows.checks.length + rows.parameters.length).toBeGreaterThan(400);
  });

  it.each(LISTS)('%s: none is left without the English one that it was made from', (_, own, english) => {
    expect(Object.keys(own).filter((text) => !english.includes(text))).toEqual([]);
  });

  it.each(LISTS)('%s: the numbers are those of the English text', (_, own) => {
    const cited = /bioRxiv [\d.]+/g;
    const differ = Object.entries(own).filter(
      ([english, text]) => `${numbers(english.replace(cited, ''), ',', '.')}` !== `${numbers(text.replace(cited, ''), '.', ',')}`,
    );
    expect(differ).toEqual([]);
  });

  it('are put together from parts, with the marks of German numbers', () => {
    const check = { ...rows.checks[0]!, check: 'brood on 10 January 2013, New York', source: 'no figure found; Winston 1987: 0.25 to 1,000 kg (from memory)', published: '9.5 d (8 to 9)', unit: 'cells/bee', note: '' };
    expect(german({ checks: [check], parameters: [], left: [] }).checks).toEqual([
      {
        check: 'Brut am 10. Januar 2013, New York',
        source: 'keine Zahl gefunden; Winston 1987: 0,25 bis 1.000 kg (aus dem Gedächtnis)',
        published: '9,5 Tage (8 bis 9)',
        unit: 'Zellen/Biene',
        note: '',
      },
    ]);
  });

  it('are missing where there are none, and the row stays English there', () => {
    const check = { ...rows.checks[0]!, check: 'something new', source: 'Winston 1987: quite new', published: 'some', unit: 'wings', note: 'why' };
    const made = JSON.parse(JSON.stringify(german({ checks: [check], parameters: [], left: [] }))) as typeof words;
    expect(made.checks).toEqual([{}]);
    expect(said('checks', [check], made)).toEqual([{ ...check, english: ['check', 'source', 'published', 'unit', 'note'] }]);
    expect(said('checks', [check])).toEqual([{ ...check, english: [] }]);
  });

  it('name every section, as the English ones do', () => {
    const sections = [...new Set(rows.parameters.map(({ section }) => section))].toSorted();
    expect(Object.keys(en.evidence.sections).toSorted()).toEqual(sections);
    expect(Object.keys(de.evidence.sections).toSorted()).toEqual(sections);
  });
});
