/**
 * Amounts in words.
 */

/** `3` → `3`, `2.5` → `2½`: frames as a beekeeper counts them. */
export function halves(value: number): string {
  const halved = Math.round(Math.abs(value) * 2) / 2;
  const whole = Math.floor(halved);
  const half = halved > whole ? '½' : '';
  return `${whole || !half ? whole : ''}${half}`;
}
