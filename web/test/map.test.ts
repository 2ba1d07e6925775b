import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const source = new URL('../src/', import.meta.url).pathname;
const guide = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
/** Made by a build, or no program. */
const NO_PROGRAM = ['wasm', 'fonts'];

it('the map for developers shows every part of the page', () => {
  const parts = readdirSync(source, { withFileTypes: true }).filter((entry) => entry.isDirectory() && !NO_PROGRAM.includes(entry.name));
  expect(parts.length).toBeGreaterThan(10);
  for (const { name } of parts) expect(guide).toMatch(new RegExp(`^\\| [^|]*\`web/src/${name}\``, 'm'));
});
