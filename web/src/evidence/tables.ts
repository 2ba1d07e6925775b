// The tables of the Evidence view: two that the program wrote (`cargo xtask tables`), and a list of README.md.

import left from '../../../README.md?list';
import type { Language } from '../text/index.svelte';
import checksAddress from './checks.json?url';
import parametersAddress from './parameters.json?url';
import { type Check, type Parameter, type Said, type Sentence, type TableWords, said } from './rows';

export interface Tables {
  checks: Said<Check>[];
  parameters: Said<Parameter>[];
  left: Said<Sentence>[];
}

/** Where a language has the words of the tables; those of the tables themselves are English. */
const WORDS: Record<Language, () => Promise<Partial<TableWords> | undefined>> = {
  en: async () => undefined,
  de: async () => (await import('virtual:german-tables').catch(() => ({ default: {} }))).default,
};

async function fetched<T>(address: string): Promise<T[]> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return (await response.json()) as T[];
}

export async function tables(language: Language): Promise<Tables> {
  const [checks, parameters, words] = await Promise.all([fetched<Check>(checksAddress), fetched<Parameter>(parametersAddress), WORDS[language]()]);
  return {
    checks: said('checks', checks, words),
    parameters: said('parameters', parameters, words),
    left: said('left', left, words),
  };
}
