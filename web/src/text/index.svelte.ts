// The texts of the page in the language that was chosen.

import { type Catalogue, en } from './en'

const CATALOGUES = { en } as const satisfies Record<string, Catalogue>

export type Language = keyof typeof CATALOGUES

let chosen = $state<Language>('en')

/** The catalogue of the chosen language; a component that reads it follows a change of language. */
export function text(): Catalogue {
  return CATALOGUES[chosen]
}

export function language(): Language {
  return chosen
}

export function choose(language: Language): void {
  chosen = language
}
