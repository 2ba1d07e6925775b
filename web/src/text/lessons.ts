/** The texts of the lessons: they come with the lessons, in every language, and not with the page. */
import { lessons as de } from './de/lessons';
import { lessons as en } from './en/lessons';
import { type Language, language } from './index.svelte';

const LESSONS: Record<Language, typeof en> = { en, de };

/** The texts of the lessons in the chosen language. */
export const lessonTexts = (): typeof en => LESSONS[language()];
