/** The texts of what lies below the first screen: they come with it, in every language, and not with the page. */
import { next as deNext } from './de/next';
import { trials as deTrials } from './de/trials';
import { verdict as deVerdict } from './de/verdict';
import { next } from './en/next';
import { trials } from './en/trials';
import { verdict } from './en/verdict';
import { type Language, language } from './index.svelte';

const en = { verdict, next, trials };

export type BelowTexts = typeof en;

export const BELOW: Record<Language, BelowTexts> = { en, de: { verdict: deVerdict, next: deNext, trials: deTrials } };

/** These texts in the chosen language. */
export const belowTexts = (): BelowTexts => BELOW[language()];
