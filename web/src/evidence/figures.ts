/** A number with as many figures as a reader can use. */
export function figure(value: number): string {
  return value.toLocaleString('en', Math.abs(value) >= 1000 ? { maximumFractionDigits: 0 } : { maximumSignificantDigits: 4 });
}
