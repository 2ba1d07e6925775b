/**
 * Frames as they are counted.
 */
/** `3` → `3`, `2.5` → `2½`: frames as a beekeeper counts them. */
export function halves(value: number): string {
  const halved = Math.round(Math.abs(value) * 2) / 2;
  const whole = Math.floor(halved);
  const half = halved > whole ? '½' : '';
  return `${whole || !half ? whole : ''}${half}`;
}

/** `2.75` → `2¾`: frames as they are written down at a visit. */
export function quarters(value: number): string {
  const quartered = Math.round(Math.abs(value) * 4) / 4;
  const whole = Math.floor(quartered);
  const part = ['', '¼', '½', '¾'][(quartered - whole) * 4] ?? '';
  return `${whole || !part ? whole : ''}${part}`;
}
