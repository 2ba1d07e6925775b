/** The texts of the search: they come with it, in every language, and not with the page. */
import { search as de } from './de/search';
import { search as en } from './en/search';
import { type Language, language } from './index.svelte';

const SEARCH: Record<Language, typeof en> = { en, de };

/** The texts of the search in the chosen language. */
export const searchTexts = (): typeof en => SEARCH[language()];
