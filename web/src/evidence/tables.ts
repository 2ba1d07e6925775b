// What the Evidence view shows: two tables that the program wrote (`cargo xtask tables`), and a list of README.md.

import readme from '../../../README.md?raw';
import checksAddress from './checks.json?url';
import parametersAddress from './parameters.json?url';

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

async function fetched<T>(address: string): Promise<T[]> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return (await response.json()) as T[];
}

export const checks = (): Promise<Check[]> => fetched<Check>(checksAddress);
export const parameters = (): Promise<Parameter[]> => fetched<Parameter>(parametersAddress);

/** The heading and the points of the list under it in README.md, without marks of Markdown. */
export function notModelled(markdown = readme): { heading: string; points: string[] } {
  const [heading = '', ...lines] = markdown.match(/^## (What it does not model)\n([\s\S]*?)(?=^## )/m)?.slice(1).join('\n').split('\n') ?? [];
  const points = lines.filter((line) => line.startsWith('- ')).map((line) => line.slice(2).replace(/[`*]/g, ''));
  return { heading, points };
}

/** The parameters of a basis (any where it is empty) that have every word of a text somewhere. */
export function fitting(all: Parameter[], words: string, basis: Basis | ''): Parameter[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return all.filter((parameter) => {
    if (basis && parameter.basis !== basis) return false;
    const own = `${parameter.section}.${parameter.name} ${parameter.doc} ${parameter.unit} ${parameter.source}`.toLowerCase();
    return wanted.every((word) => own.includes(word));
  });
}
