/**
 * The page's own words for what the model names in code.
 */

/** The brakes as they stand in the ribbon. */
const BRAKES: Record<string, string> = {
  her_rate: 'nothing but her own rate',
  empty_cells: 'empty cells',
  nurses: 'nurses',
  pollen: 'pollen',
  food: 'food',
  warmth: 'warmth',
  caged: 'caged',
  no_queen: 'no laying queen',
};

export function brakeWord(brake: string): string {
  return BRAKES[brake] ?? brake.replaceAll('_', ' ');
}

/** A shorter word, for narrow stretches. */
export function brakeShort(brake: string): string {
  if (brake === 'empty_cells') return 'cells';
  if (brake === 'her_rate') return 'her own rate';
  if (brake === 'no_queen') return 'no queen';
  return brakeWord(brake);
}

/** `3` → `3`, `2.5` → `2½`: frames as a beekeeper counts them. */
export function halves(value: number): string {
  const halved = Math.round(Math.abs(value) * 2) / 2;
  const whole = Math.floor(halved);
  const half = halved > whole ? '½' : '';
  return `${whole || !half ? whole : ''}${half}`;
}
