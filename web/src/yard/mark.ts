/** What the end of an address begins with that holds a plan. What reads the plan (`link.ts`) is fetched for such an address alone. */
export const MARK = '#plan=';

export const isLink = (hash: string): boolean => hash.startsWith(MARK);
