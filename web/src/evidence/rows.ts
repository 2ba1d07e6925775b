// What the tables of the Evidence view are made of, and the words of another language over them.

/** A published measurement beside the model's value. */
export interface Check {
  id: string;
  check: string;
  source: string;
  published: string;
  low: number;
  high: number;
  unit: string;
  value: number;
  inside: boolean;
  /** Whether the model could have missed the range: no input of it, and no published equations coded beside it. */
  tested: boolean;
  note: string;
}

export type Basis = 'published' | 'tuned' | 'assumed';

/** A number that the model rests on. */
export interface Parameter {
  section: string;
  name: string;
  doc: string;
  default: number;
  unit: string;
  min: number;
  max: number;
  source: string;
  basis: Basis;
}

/** The heading of what the model leaves out, or a point of it. */
export interface Sentence {
  text: string;
}

const FIELDS = {
  checks: ['check', 'source', 'published', 'unit', 'note'],
  parameters: ['doc', 'source', 'unit'],
  left: ['text'],
} as const;

interface Rows {
  checks: Check;
  parameters: Parameter;
  left: Sentence;
}

/** The words of the tables in another language, row by row; what it has none for is missing. */
export type TableWords = { [Name in keyof Rows]: { [Field in (typeof FIELDS)[Name][number]]?: string }[] };

/** A row as a page shows it, with the fields that are English on a page of another language. */
export type Said<Row> = Row & { english: readonly string[] };

/** What a field is marked with. */
export const languageOf = ({ english }: { english: readonly string[] }, field: string) => (english.includes(field) ? 'en' : undefined);

/** A table in the words of a language; without any where it is shown as it is. */
export function said<Name extends keyof Rows>(name: Name, rows: Rows[Name][], words?: Partial<TableWords>): Said<Rows[Name]>[] {
  return rows.map((row, i) => {
    const own: object = words?.[name]?.[i] ?? {};
    return { ...row, ...own, english: words ? FIELDS[name].filter((field) => !(field in own)) : [] };
  });
}

/** The heading of the list of what is not modelled in README.md, and its points, without marks of Markdown. */
export function notModelled(markdown: string): Sentence[] {
  const [heading = '', ...lines] = markdown.match(/^## (What it does not model)\n([\s\S]*?)(?=^## )/m)?.slice(1).join('\n').split('\n') ?? [];
  const points = lines.filter((line) => line.startsWith('- ')).map((line) => line.slice(2).replace(/[`*]/g, ''));
  return [heading, ...points].map((text) => ({ text }));
}

/** The parameters of a basis (any where it is empty) that have every word of a text somewhere. */
export function fitting<Row extends Parameter>(all: Row[], words: string, basis: Basis | ''): Row[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return all.filter((parameter) => {
    if (basis && parameter.basis !== basis) return false;
    const own = `${parameter.section}.${parameter.name} ${parameter.doc} ${parameter.unit} ${parameter.source}`.toLowerCase();
    return wanted.every((word) => own.includes(word));
  });
}
