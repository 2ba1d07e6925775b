/** The texts of what comes after the first screen: they come with it, in every language, and not with the page. */
import { change as deChange } from './de/change';
import { next as deNext } from './de/next';
import { trials as deTrials } from './de/trials';
import { verdict as deVerdict } from './de/verdict';
import { visit as deVisit } from './de/visit';
import { change } from './en/change';
import { next } from './en/next';
import { trials } from './en/trials';
import { verdict } from './en/verdict';
import { visit } from './en/visit';
import { type Language, language } from './index.svelte';

const en = { change, visit, verdict, next, trials };

export type BelowTexts = typeof en;

export const BELOW: Record<Language, BelowTexts> = { en, de: { change: deChange, visit: deVisit, verdict: deVerdict, next: deNext, trials: deTrials } };

/** These texts in the chosen language. */
export const belowTexts = (): BelowTexts => BELOW[language()];
