import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { filesIn, serviceWorker } from '../scripts/offline.mjs';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'combcast-'));
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'index.html'), 'page');
  writeFileSync(join(folder, 'assets', 'a.js'), 'one');
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('the service worker', () => {
  it('keeps every file but itself', () => {
    writeFileSync(join(folder, 'sw.js'), 'itself');
    expect(filesIn(folder)).toEqual(['assets/a.js', 'index.html']);
    expect(serviceWorker(folder)).toContain('["assets/a.js","index.html"]');
  });

  it('is another version when a file differs', () => {
    const version = () => /VERSION = "([0-9a-f]{16})"/.exec(serviceWorker(folder))?.[1];
    const before = version();
    expect(before).toBe(version());
    writeFileSync(join(folder, 'assets', 'a.js'), 'two');
    expect(version()).not.toBe(before);
  });
});
