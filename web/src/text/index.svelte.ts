/**
 * The texts of the page in the language that was chosen: kept on this device, at first as the browser has it.
 * English comes with the page; another language is fetched when it is chosen, and lies on the device with the rest.
 */
import { type Catalogue, en } from './en';

const CATALOGUES = {
  en: async () => en,
  de: async () => (await import('./de')).de,
} satisfies Record<string, () => Promise<Catalogue>>;

export type Language = keyof typeof CATALOGUES;

/** Each language by its own name. */
export const LANGUAGES: Record<Language, string> = { en: 'English', de: 'Deutsch' };

const KEY = 'combcast language';

let chosen = $state.raw<{ language: Language; catalogue: Catalogue }>({ language: 'en', catalogue: en });

/** The catalogue of the chosen language; a component that reads it follows a change of language. */
export function text(): Catalogue {
  return chosen.catalogue;
}

export function language(): Language {
  return chosen.language;
}

/** Goes over to a language; where its texts cannot be had, the page stays as it is. */
export async function choose(language: Language): Promise<void> {
  const catalogue = await CATALOGUES[language]().catch(() => null);
  if (!catalogue) return;
  chosen = { language, catalogue };
  document.documentElement.lang = language;
  try {
    localStorage.setItem(KEY, language);
  } catch {
    // Forbidden: it holds until the page is closed.
  }
}

function isLanguage(word: string | null | undefined): word is Language {
  return word != null && word in CATALOGUES;
}

/** The language that was chosen before, or the browser's where the page has it. */
export async function chooseFirst(): Promise<void> {
  let kept: string | null = null;
  try {
    kept = localStorage.getItem(KEY);
  } catch {
    // Forbidden: as at the first visit.
  }
  const wanted = isLanguage(kept) ? kept : navigator.language.slice(0, 2).toLowerCase();
  if (isLanguage(wanted) && wanted !== 'en') await choose(wanted);
}
