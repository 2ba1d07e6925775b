/**
 * Metric and US units. The model and the scenario file are metric; only what is shown changes.
 */

import type { Weight } from './text/en/cautions';
import { text } from './text/index.svelte';

export type UnitSystem = 'metric' | 'us';

interface Unit {
  label: string;
  /** Shown value = metric value × factor + offset. */
  factor: number;
  offset: number;
  decimals: number;
}

const UNITS = {
  temperature: {
    metric: { label: '°C', factor: 1, offset: 0, decimals: 0 },
    us: { label: '°F', factor: 1.8, offset: 32, decimals: 0 },
  },
  warmthStep: {
    metric: { label: '°C', factor: 1, offset: 0, decimals: 1 },
    us: { label: '°F', factor: 1.8, offset: 0, decimals: 1 },
  },
  rain: {
    metric: { label: 'mm', factor: 1, offset: 0, decimals: 0 },
    us: { label: 'in', factor: 1 / 25.4, offset: 0, decimals: 2 },
  },
  stores: {
    metric: { label: 'kg', factor: 1, offset: 0, decimals: 1 },
    us: { label: 'lb', factor: 1 / 0.453_592_37, offset: 0, decimals: 1 },
  },
  syrup: {
    metric: { label: 'l', factor: 1, offset: 0, decimals: 1 },
    us: { label: 'gal', factor: 1 / 3.785_411_784, offset: 0, decimals: 2 },
  },
  height: {
    metric: { label: 'm', factor: 1, offset: 0, decimals: 0 },
    us: { label: 'ft', factor: 1 / 0.3048, offset: 0, decimals: 0 },
  },
} satisfies Record<string, Record<UnitSystem, Unit>>;

export type Quantity = keyof typeof UNITS;

export function unitOf(quantity: Quantity, system: UnitSystem): Unit {
  const unit = UNITS[quantity][system];
  return quantity === 'syrup' ? { ...unit, label: system === 'us' ? text().calendar.gallons : text().calendar.litres } : unit;
}

/** From metric to what is shown. */
export function shown(value: number, quantity: Quantity, system: UnitSystem): number {
  const unit = unitOf(quantity, system);
  return value * unit.factor + unit.offset;
}

/** From what was typed to metric. */
export function metric(value: number, quantity: Quantity, system: UnitSystem): number {
  const unit = unitOf(quantity, system);
  return (value - unit.offset) / unit.factor;
}

/** `12.5 kg`, `0.47 in`. */
export function withUnit(value: number, quantity: Quantity, system: UnitSystem): string {
  const unit = unitOf(quantity, system);
  return `${figure(shown(value, quantity, system), unit.decimals)} ${unit.label}`;
}

/** A text with weights in it. */
export type Weighed = string | ((weight: Weight) => string);

/** The text with weights as somebody says them who has not put them on scales: to the nearest ten, small ones to the first decimal. */
export function weighed(words: Weighed, system: UnitSystem): string {
  if (typeof words === 'string') return words;
  return words((kilograms) => {
    const value = shown(kilograms, 'stores', system);
    const said = value < 10 ? inBox(value, 1) : figure(Math.round(value / 10) * 10);
    return `${said} ${unitOf('stores', system).label}`;
  });
}

/** Making a format takes far longer than using it. */
const formats = new Map<string, Intl.NumberFormat>();

/** With so many decimals at the least and at the most; in a box without anything between the thousands. */
function format(least: number, most: number, useGrouping = true): Intl.NumberFormat {
  const { locale } = text().calendar;
  const key = `${locale} ${least} ${most} ${useGrouping}`;
  let known = formats.get(key);
  if (!known) {
    known = new Intl.NumberFormat(locale, { minimumFractionDigits: least, maximumFractionDigits: most, useGrouping });
    formats.set(key, known);
  }
  return known;
}

/** A number as the language writes it, with a true minus sign. */
export function figure(value: number, decimals = 0): string {
  const digits = format(decimals, decimals).format(Math.abs(value));
  return value < 0 && /[1-9]/.test(digits) ? `−${digits}` : digits;
}

/** A number as it stands in a box to be typed over: no more decimals than it needs, nothing between the thousands. */
export function inBox(value: number, decimals: number): string {
  return format(0, decimals, false).format(value);
}

/** A number that somebody typed, with a comma or a point; `NaN` where it is none. */
export function typedNumber(entry: string): number {
  const digits = entry.trim().replace(',', '.').replace('−', '-');
  return digits === '' ? Number.NaN : Number(digits);
}

/**
 * Heads as a beekeeper can judge them. It is the rule of the model's own sentences (`about` of `sim-core/src/story/amounts.rs`),
 * so that a story and a table beside it say the same.
 */
export function beeCount(value: number): string {
  const step = value < 20 ? 1 : value < 100 ? 10 : value < 1000 ? 50 : value < 20_000 ? 100 : 500;
  return figure(Math.round(value / step) * step);
}

/** Sugar in a litre of syrup, kg, and litres in a quart jar: as `sim-core/src/syrup.rs` has them. */
export const SUGAR_KG_PER_LITRE = { '1:1': 0.6148, '2:1': 0.8845 } as const;
export const LITRES_PER_JAR = 0.946_352_946;
