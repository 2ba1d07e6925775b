import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import type { Page } from '@playwright/test';
import { filesIn, serviceWorker } from '../scripts/offline.mjs';
import { changing, compared, date, expect, open, reload, story, test } from './page';

const ready = (page: Page) => expect(page.getByText('it opens without a network')).toBeVisible({ timeout: 20_000 });

test('after one visit the page works without a network', async ({ page, context }) => {
  await open(page);
  await ready(page);
  await context.setOffline(true);
  await reload(page);
  await expect(story(page)).toContainText('day 43');
  await changing(page);
  const [before] = await compared(page, 'bees');
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await expect.poll(async () => (await compared(page, 'bees'))[0]).not.toBe(before);
  // An example with another weather record.
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('state college swarm');
  await expect(date(page)).not.toHaveAttribute('aria-valuetext', /2012/);
  await expect(page.locator('.problem, .fatal')).toHaveCount(0);
});

test('without a network every part of the page opens, and the way back is whole', async ({ page, context }) => {
  const failed: string[] = [];
  // A worker that is ended while it loads is no fault: that is the page's own doing.
  page.on('requestfailed', (request) => {
    if (request.failure()?.errorText !== 'net::ERR_ABORTED') failed.push(`${request.url()} ${request.failure()?.errorText}`);
  });
  await open(page);
  await ready(page);
  await context.setOffline(true);
  await reload(page);
  await expect(story(page)).toContainText('day 43');
  for (const [view, heading] of [
    ['#/lessons', 'Lessons'],
    ['#/evidence', 'Evidence'],
    ['#/yard', 'The yard'],
  ] as const) {
    for (const again of [false, true]) {
      await page.goto(`./${view}`);
      if (again) await reload(page);
      await expect(page.getByRole('heading', { level: 1, name: heading })).toBeVisible();
      await page.goto('./#/visit');
      await expect(page.getByRole('button', { name: 'Hide what was expected' })).toBeVisible();
      await page.goto(`./${view}`);
      await page.goto('./#/');
      await expect(page.getByRole('button', { name: 'Take the demo hive’s six visits' })).toBeVisible();
    }
  }
  // The worker that asks for a newer version finds no network; all else is on the device.
  expect(failed.filter((one) => !one.includes('/sw.js'))).toEqual([]);
});

/** A server of its own, whose files can be replaced by a newer version. */
interface Host {
  url: string;
  publish: () => void;
}

const KINDS: Record<string, string> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm', '.svg': 'image/svg+xml', '.json': 'application/json' };

/** The built page with another name for the part that shows the evidence, as a newer build has it. */
function makeNewer(folder: string): void {
  const files = filesIn(folder);
  const part = files.find((file) => /^assets\/EvidenceView-.*\.js$/.test(file));
  if (!part) throw new Error('The built page has no part for the evidence.');
  const [name, newer] = [part.replace('assets/', ''), 'EvidenceView-newer.js'];
  renameSync(join(folder, part), join(folder, 'assets', newer));
  for (const file of files.filter((one) => /\.(js|html)$/.test(one) && one !== part)) {
    const path = join(folder, file);
    const text = readFileSync(path, 'utf8').replaceAll(name, newer);
    writeFileSync(path, file === 'index.html' ? text.replace('<body>', '<body data-build="newer">') : text);
  }
  writeFileSync(join(folder, 'sw.js'), serviceWorker(folder));
}

const hosted = test.extend<{ host: Host }>({
  host: async ({}, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'combcast-'));
    cpSync(new URL('../dist', import.meta.url), folder, { recursive: true });
    const server = createServer((request, response) => {
      const path = decodeURIComponent(new URL(request.url ?? '/', 'http://127.0.0.1').pathname);
      const file = path === '/' ? 'index.html' : path.slice(1);
      try {
        const body = readFileSync(join(folder, file));
        response.writeHead(200, { 'content-type': KINDS[extname(file)] ?? 'application/octet-stream', 'cache-control': 'no-cache', vary: 'origin' });
        response.end(body);
      } catch {
        response.writeHead(404).end();
      }
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    await use({ url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, publish: () => makeNewer(folder) });
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
    rmSync(folder, { recursive: true });
  },
  baseURL: async ({ host }, use) => use(host.url),
});

const build = (page: Page) => page.locator('body').getAttribute('data-build');
const newer = (page: Page) => page.getByRole('status').filter({ hasText: 'A newer Combcast is here' });
/** What the browser does by itself on each way to the page, and once a day. */
const lookForNewer = (page: Page) => page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));

hosted('a newer version is offered, and taken without losing what was typed', async ({ page, host }) => {
  await open(page);
  await ready(page);
  await expect(newer(page)).toHaveCount(0);
  await page.goto('./#/lessons/the-dip');
  const first = page.getByRole('slider', { name: '7 May', exact: true });
  await first.press('ArrowDown');
  await page.goto('./#/');
  await changing(page);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2.5');
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await page.goto('./#/visit');
  const notes = page.getByRole('textbox', { name: 'Written in the yard' });
  await notes.fill('half a sent');
  host.publish();
  await lookForNewer(page);
  // The sheet is at work; the offer waits on it without taking anything away.
  await expect(newer(page)).toBeVisible();
  await expect(notes).toHaveValue('half a sent');
  await notes.fill('half a sentence');
  expect(await build(page)).toBeNull();
  await newer(page).getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => build(page)).toBe('newer');
  await expect(notes).toHaveValue('half a sentence');
  await expect(newer(page)).toHaveCount(0);
  await page.goto('./#/');
  await changing(page);
  await expect(page.getByRole('textbox', { name: 'Weight of bees' })).toHaveValue('2.5');
  await page.goto('./#/lessons/the-dip');
  await expect(first).toHaveAttribute('aria-valuetext', '9,500 bees');
  await page.goto('./#/evidence');
  await expect(page.getByRole('heading', { level: 1, name: 'Evidence' })).toBeVisible();
});

hosted('a tab that still has the older version keeps working, and can follow', async ({ page, context, host }) => {
  await open(page);
  await ready(page);
  const other = await context.newPage();
  await open(other);
  host.publish();
  await lookForNewer(page);
  await newer(page).getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => build(page)).toBe('newer');
  // The part is gone from the server, and from the newer version; the device still has it.
  expect(await build(other)).toBeNull();
  await other.getByRole('link', { name: 'Evidence' }).click();
  await expect(other.getByRole('heading', { level: 1, name: 'Evidence' })).toBeVisible();
  await newer(other).getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => build(other)).toBe('newer');
});

hosted('a newer version that nobody takes waits, and comes with the next visit', async ({ page, context, host }) => {
  await open(page);
  await ready(page);
  host.publish();
  await lookForNewer(page);
  await newer(page).getByRole('button', { name: 'Later' }).click();
  await expect(newer(page)).toHaveCount(0);
  expect(await build(page)).toBeNull();
  // The last tab with the old version is closed; without a network the newer one is there already.
  await page.close();
  await context.setOffline(true);
  const next = await context.newPage();
  await expect
    .poll(async () => {
      // A tab that stands on the page holds the older version: leave it between two looks.
      await next.goto('about:blank');
      await next.goto(host.url);
      return build(next);
    })
    .toBe('newer');
  await expect(story(next)).toContainText('day 43');
});
