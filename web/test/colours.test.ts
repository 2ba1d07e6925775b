import { readFileSync } from 'node:fs';
import { formatHex, interpolate } from 'culori';
import { describe, expect, it } from 'vitest';
import { contrast, difference, least, THEMES, tokens, VISIONS } from './colours';

/**
 * What is told apart by colour alone differs by at least this much, CIEDE2000, for each type of colour vision at full
 * severity. About 2 is just seen side by side; 10 is seen across a page (the limit is ours).
 */
const APART = 10;
/** Non-text contrast (WCAG 2.2, 1.4.11), and text (1.4.3). */
const GRAPHIC = 3;
const TEXT = 4.5;

const pairs = <T>(all: readonly T[]): [T, T][] => all.flatMap((one, i) => all.slice(i + 1).map((other): [T, T] => [one, other]));

describe('the simulation', () => {
  it('is that of the paper: greys stay grey, and red and green come near each other where cones are missing', () => {
    for (const vision of VISIONS) expect(difference(vision, '#808080', '#ffffff')).toBeCloseTo(difference('usual', '#808080', '#ffffff'), 0);
    const usual = difference('usual', '#c04000', '#608000');
    expect(difference('protan', '#c04000', '#608000')).toBeLessThan(usual / 2);
    expect(difference('deutan', '#c04000', '#608000')).toBeLessThan(usual / 2);
    expect(difference('tritan', '#c04000', '#608000')).toBeGreaterThan(usual / 2);
  });
});

describe.each(THEMES)('in the %s theme', (theme) => {
  const all = tokens(theme);
  const of = (name: string): string => {
    const colour = all.get(name);
    if (!colour) throw new Error(`style.css has no token --${name} with a colour for each theme.`);
    return colour;
  };
  const near = (names: readonly string[]) =>
    pairs(names)
      .map(([one, other]) => ({ pair: `${one}, ${other}`, ...least(of(one), of(other)) }))
      .filter(({ difference }) => difference < APART)
      .map(({ pair, vision, difference }) => `${pair}: ${difference.toFixed(1)} ${vision}`);

  it('text stands out from its ground', () => {
    for (const text of ['ink', 'ink-2', 'blue', 'rust']) {
      for (const ground of ['paper', 'leaf']) expect([text, ground, contrast(of(text), of(ground)) >= TEXT]).toEqual([text, ground, true]);
    }
    expect(contrast(of('paper'), of('blue'))).toBeGreaterThanOrEqual(TEXT);
  });

  it('lines, edges and outlines of controls stand out from their ground for everybody', () => {
    const edges = ['edge', 'blue', 'rust', 'ink', 'wood-edge', 'comb-edge', 'bee', 'temperature', 'bloom-edge'];
    // Light fills have an edge in a darker colour; in the dark the fills themselves are light.
    const stacks = theme === 'light' ? ['brood-edge', 'store-edge'] : ['capped', 'larvae', 'eggs', 'honey', 'nectar', 'pollen'];
    for (const line of [...edges, ...stacks]) {
      for (const vision of VISIONS) expect([line, vision, contrast(of(line), of('leaf'), vision) >= (vision === 'usual' ? GRAPHIC : 2.5)]).toEqual([line, vision, true]);
    }
  });

  it('what is expected, what differs, and what was found are told apart', () => {
    expect(near(['blue', 'rust', 'ink'])).toEqual([]);
  });

  it('layers that lie on each other in a chart are told apart', () => {
    expect(near(['eggs', 'larvae', 'capped'])).toEqual([]);
    expect(near(['honey', 'nectar', 'pollen'])).toEqual([]);
    expect(near(['bloom', 'temperature', 'blue'])).toEqual([]);
  });

  it('a band is told from the page and from the half within it, and the line from both', () => {
    const half = formatHex(interpolate([of('blue-tint'), of('blue')])(0.28));
    for (const [one, other] of [
      [of('blue-tint'), of('leaf')],
      [half, of('blue-tint')],
      [of('blue'), half],
    ] as const) expect(least(one, other).difference).toBeGreaterThanOrEqual(APART);
  });

  it('contents of the comb are told apart by colour, or by a mark that is seen on them', () => {
    const contents = ['comb', 'cut-egg', 'cut-larva', 'cut-brood', 'cut-drone', 'nectar', 'honey', 'pollen'];
    // Each of these has a mark of its own (hive/comb.ts); empty comb, brood and honey have none.
    const marks = new Map([
      ['cut-egg', 'ink-2'],
      ['cut-larva', 'larva-mark'],
      ['nectar', 'nectar-mark'],
      ['pollen', 'pollen-mark'],
    ]);
    for (const [ground, mark] of marks) expect([ground, least(of(ground), of(mark)).difference >= APART]).toEqual([ground, true]);
    // A drone cell's mark is its dome, over the edge of the comb.
    const marked = (name: string) => marks.has(name) || name === 'cut-drone';
    expect(near(contents.filter((name) => !marked(name)))).toEqual([]);
    for (const [one, other] of pairs(contents)) {
      if (least(of(one), of(other)).difference < APART) expect([one, other, marked(one) || marked(other)]).toEqual([one, other, true]);
    }
  });

  it('each brake’s mark is seen on its ground', () => {
    for (const brake of ['cells', 'nurses', 'pollen', 'food', 'warmth', 'caged']) {
      for (const vision of VISIONS) {
        const ratio = contrast(of(`brake-${brake}`), of(`brake-${brake}-mark`), vision);
        expect([brake, vision, ratio >= (vision === 'usual' ? GRAPHIC : 2.5)]).toEqual([brake, vision, true]);
      }
    }
  });
});

it('no two brakes have the same texture: the grounds come near each other, so the marks carry', () => {
  const source = readFileSync(new URL('../src/strip/Textures.svelte', import.meta.url), 'utf8');
  const textures = [...source.matchAll(/<pattern id="brake-(\w+)"([^>]*)>(.*?)<\/pattern>/gs)].map(([, name, size, marks]) => ({
    name,
    // Only the form: neither the colours nor the ground.
    form: `${/rotate\([^)]*\)/.exec(size ?? '')?.[0] ?? ''} ${(marks ?? '').replaceAll(/<rect[^>]*>|class="[^"]*"|\s+/g, ' ').trim()}`,
  }));
  expect(textures.length).toBeGreaterThanOrEqual(8);
  expect(new Set(textures.map(({ form }) => form)).size).toBe(textures.length);
  expect(textures.filter(({ form }) => form.trim() === '').map(({ name }) => name)).toEqual(['her_rate']);
});
