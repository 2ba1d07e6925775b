/**
 * Colours as readers see them: the tokens of style.css, and what the three common types of colour vision make of them.
 */
import { readFileSync } from 'node:fs';
import { converter, differenceCiede2000, type Rgb, wcagContrast } from 'culori';

export const THEMES = ['light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

/**
 * Machado, Oliveira and Fernandes (2009), "A physiologically-based model for simulation of color vision deficiency",
 * IEEE Transactions on Visualization and Computer Graphics 15(6): the matrices of full severity. They stand for
 * linear RGB, row by row.
 */
const SEEN = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const;

export type Vision = keyof typeof SEEN;
export const VISIONS = Object.keys(SEEN) as Vision[];

const style = readFileSync(new URL('../src/style.css', import.meta.url), 'utf8');

/** The colours of a theme, by the name of their token. */
export function tokens(theme: Theme): Map<string, string> {
  const found = [...style.matchAll(/--([\w-]+): light-dark\((#[\da-f]{6}), (#[\da-f]{6})\)/g)];
  return new Map(found.map(([, name, light, dark]) => [name as string, (theme === 'light' ? light : dark) as string]));
}

const linear = converter('lrgb');

export function seenBy(vision: Vision, colour: string): Rgb {
  const { r, g, b } = linear(colour) ?? { r: 0, g: 0, b: 0 };
  const within = (value: number) => Math.min(Math.max(value, 0), 1);
  const [red, green, blue] = SEEN[vision].map(([x, y, z]) => within(x * r + y * g + z * b)) as [number, number, number];
  return converter('rgb')({ mode: 'lrgb', r: red, g: green, b: blue });
}

const apart = differenceCiede2000();

/** CIEDE2000 between two colours as one type of colour vision has them. */
export const difference = (vision: Vision, one: string, other: string): number => apart(seenBy(vision, one), seenBy(vision, other));

/** The least over all types of colour vision, and whose it is. */
export function least(one: string, other: string): { vision: Vision; difference: number } {
  const all = VISIONS.map((vision) => ({ vision, difference: difference(vision, one, other) }));
  return all.reduce((found, at) => (at.difference < found.difference ? at : found));
}

/** The ratio of WCAG 2.2 between two colours as one type of colour vision has them. */
export const contrast = (one: string, other: string, vision: Vision = 'usual'): number => wcagContrast(seenBy(vision, one), seenBy(vision, other));
