import { readFileSync, writeFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { accessFaults, changing, expect, open, reload, story, test } from './page';

const FIRST = 'A package in a wet spring, fed';
const DRAWN = 'A package on drawn comb in a wet spring';

const names = (page: Page) => page.getByRole('button', { name: /^Open / });
async function openYard(page: Page): Promise<void> {
  await open(page);
  await page.getByRole('link', { name: FIRST }).click();
  await expect(page.getByRole('heading', { name: 'The yard' })).toBeVisible();
}
async function add(page: Page, like: string): Promise<void> {
  await page.getByRole('combobox', { name: 'like' }).selectOption(like);
  await page.getByRole('button', { name: 'Add it' }).click();
}
async function saveAll(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save everything' }).click()]);
  return readFileSync(await download.path(), 'utf8');
}
const bringIn = (page: Page, text: string, name = 'yard.json') =>
  page.getByLabel('Bring a file in').and(page.locator('input')).setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

/** A page of the same origin on which nothing runs. */
async function bare(page: Page): Promise<void> {
  await page.route('**/bare.html', (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>bare</title><link rel="icon" href="./mark.svg">' }));
  await page.goto('./bare.html');
}

/** Works on the database as another program would. */
const inStorage = (page: Page, put: Record<string, unknown>[]) =>
  page.evaluate(async (put) => {
    const wait = <T>(request: IDBRequest<T>) => new Promise<T>((resolve) => (request.onsuccess = () => resolve(request.result)));
    const db = await wait(indexedDB.open('combcast'));
    const store = db.transaction('hives', 'readwrite').objectStore('hives');
    const [first] = (await wait(store.getAll())) as Record<string, unknown>[];
    for (const one of put) await wait(store.put({ ...first, ...one }));
    const all = (await wait(store.getAll())) as Record<string, unknown>[];
    db.close();
    return all;
  }, put);

test('hives are added, compared, renamed, opened, deleted and brought back', async ({ page }) => {
  await openYard(page);
  await expect(names(page)).toHaveText([FIRST]);
  await add(page, DRAWN);
  await expect(names(page)).toHaveText([FIRST, DRAWN]);
  // Bees, frames of brood, frames drawn: as many as on the page of the hive itself.
  const row = page.getByRole('row').filter({ hasText: DRAWN });
  await expect(row.getByRole('cell').last()).toHaveText('12');
  await page.getByLabel('Name of the hive').fill('Hive 7');
  await page.getByLabel('Name of the hive').press('Enter');
  await page.getByLabel('Name of the hive').blur();
  await expect(names(page)).toHaveText([FIRST, 'Hive 7']);
  await add(page, 'Hive 7');
  await expect(names(page)).toHaveText([FIRST, 'Hive 7', 'Hive 7 (2)']);
  await page.getByRole('button', { name: 'Open Hive 7', exact: true }).click();
  await expect(story(page)).toContainText('12 frames drawn');
  await reload(page);
  await expect(story(page)).toContainText('12 frames drawn');
  await page.getByRole('link', { name: 'Hive 7' }).click();
  await page.getByRole('button', { name: 'More for Hive 7', exact: true }).click();
  await page.getByRole('button', { name: 'Delete' }).click();
  await expect(names(page)).toHaveText([FIRST, 'Hive 7 (2)']);
  await expect(page.getByText('Hive 7 is deleted.')).toBeVisible();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(names(page)).toHaveText([FIRST, 'Hive 7', 'Hive 7 (2)']);
  await reload(page);
  await expect(names(page)).toHaveText([FIRST, 'Hive 7', 'Hive 7 (2)']);
});

test('each hive keeps its own plan', async ({ page }) => {
  await openYard(page);
  await add(page, FIRST);
  await page.getByRole('button', { name: `Open ${FIRST} (2)` }).click();
  await expect(story(page)).toContainText('day 43');
  await changing(page);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await page.goto('./#/yard');
  const table = page.getByRole('table');
  await expect(table.getByText('package of 2 kg on foundation')).toHaveCount(1);
  await expect(table.getByText('package of 1.4 kg on foundation')).toHaveCount(1);
});

test('everything goes out as a file and comes in again, and nothing is overwritten', async ({ page, browser, baseURL }) => {
  await open(page);
  await page.getByRole('button', { name: 'Draw what you found' }).filter({ visible: true }).click();
  await page.getByRole('textbox', { name: 'Frames of bees, lower deep' }).fill('4');
  await page.goto('./#/yard');
  await expect(page.getByText('1 visit;')).toBeVisible();
  const text = await saveAll(page);
  await bringIn(page, text);
  await expect(page.getByText('0 hives were added; 1 was there already.')).toBeVisible();
  await bringIn(page, text.replace('"bees": 4', '"bees": 5'));
  await expect(page.getByText('1 hive was added.')).toBeVisible();
  await expect(names(page)).toHaveText([FIRST, `${FIRST} (2)`]);
  // On another device.
  const context = await browser.newContext({ baseURL: baseURL ?? '' });
  const elsewhere = await context.newPage();
  await elsewhere.goto('./#/yard');
  await expect(names(elsewhere)).toHaveText([FIRST]);
  await bringIn(elsewhere, text);
  await expect(names(elsewhere)).toHaveText([FIRST, `${FIRST} (2)`]);
  await expect(elsewhere.getByText('1 visit;')).toBeVisible();
  await elsewhere.reload();
  await expect(elsewhere.getByText('1 visit;')).toBeVisible();
  await context.close();
});

test('files that cannot be taken are refused in words, and change nothing', async ({ page }, info) => {
  await open(page);
  await page.getByRole('button', { name: 'Draw what you found' }).filter({ visible: true }).click();
  await page.getByRole('textbox', { name: 'Frames of bees, lower deep' }).fill('4');
  await page.goto('./#/yard');
  await expect(page.getByText('1 visit;')).toBeVisible();
  const text = await saveAll(page);
  for (const [bad, words] of [
    ['', 'It is empty.'],
    [text.slice(0, text.length / 2), 'It is cut short or damaged.'],
    ['name = "a scenario"', 'It is not a file saved here'],
    ['{"format": "something else"}', 'It is not a file saved here'],
    [text.replace('"version": 2', '"version": 3'), 'It was saved by a newer Combcast.'],
    [text.replace('"date": "2012-06-11"', '"date": "2012-06-41"'), 'hives[0].visits[0].visit.date: expected a date such as 2026-06-17, got "2012-06-41"'],
    [text.replace('"pounds": 3', '"pounds": 300'), 'hives[0].scenario.start.package'],
    [text.replace('"pounds"', '"stones"'), 'stones'],
  ] as const) {
    await bringIn(page, bad, 'bad.json');
    await expect(page.getByRole('alert')).toContainText('bad.json was not taken, and nothing has changed.');
    await expect(page.getByRole('alert')).toContainText(words);
    await expect(names(page)).toHaveText([FIRST]);
  }
  const huge = info.outputPath('huge.json');
  writeFileSync(huge, Buffer.alloc(65 * 1024 * 1024, 32));
  await page.getByLabel('Bring a file in').and(page.locator('input')).setInputFiles(huge);
  await expect(page.getByRole('alert')).toContainText('It is far larger than a yard can be.');
});

test('a plan goes on as a link that holds it whole, and is added when its finder says so', async ({ page, context }) => {
  await openYard(page);
  await add(page, DRAWN);
  await page.getByRole('button', { name: 'Link that holds the plan' }).click();
  const link = await page.getByRole('textbox', { name: 'Link that holds the plan' }).inputValue();
  const found = await context.newPage();
  await found.goto(link);
  await expect(found.getByText(`A plan came with this link: ${DRAWN}, Alder Row, package of 1.4 kg on drawn comb`)).toBeVisible();
  const first = /[\d½]+ frames drawn/.exec((await story(found).textContent()) ?? '')?.[0] ?? 'no comb';
  await found.getByRole('button', { name: 'Add it to the yard' }).click();
  await expect(story(found)).toContainText('frames drawn');
  await expect(story(found)).not.toContainText(` ${first}`);
  expect(found.url()).not.toContain('plan=');
  await found.getByRole('link', { name: `${DRAWN} (2)` }).click();
  await expect(names(found)).toHaveText([FIRST, DRAWN, `${DRAWN} (2)`]);
  for (const bad of [link.slice(0, -30), `${link.slice(0, link.indexOf('#'))}#plan=bees`]) {
    await found.goto('about:blank');
    await found.goto(bad);
    await expect(found.getByRole('alert')).toContainText('The plan in this link cannot be opened. The link is cut short or damaged');
  }
  await found.getByRole('button', { name: 'Close' }).click();
  await expect(found.getByRole('alert')).toHaveCount(0);
});

test('what cannot be read is said, offered as a file, and never written over', async ({ page }) => {
  await open(page);
  const newer = { id: 'zz-newer', format: 9, name: 'From the future' };
  const broken = { id: 'zz-broken', name: 'Broken', visits: 'many' };
  await inStorage(page, [newer, broken]);
  await reload(page);
  await expect(story(page)).toContainText('day 43');
  await expect(page.getByText('2 things on this device could not be read; they were set aside.')).toBeVisible();
  await page.getByRole('button', { name: 'See it in the yard' }).click();
  await expect(page.getByText('was written by a newer Combcast (9; this one knows 2)')).toBeVisible();
  await expect(page.getByText('hive.visits: expected a list, got "many"')).toBeVisible();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save it as a file' }).first().click()]);
  expect(JSON.parse(readFileSync(await download.path(), 'utf8'))).toMatchObject(broken);
  await page.getByRole('button', { name: `More for ${FIRST}` }).click();
  await page.getByLabel('Name of the hive').fill('Changed');
  await page.getByLabel('Name of the hive').blur();
  await expect.poll(async () => (await inStorage(page, [])).map(({ name }) => name)).toContain('Changed');
  const all = await inStorage(page, []);
  expect(all.find(({ id }) => id === newer.id)).toMatchObject(newer);
  expect(all.find(({ id }) => id === broken.id)).toMatchObject(broken);
});

test('a newer database is left as it is, and the page works beside it', async ({ page }) => {
  await bare(page);
  const version = (made: number | undefined) =>
    page.evaluate(async (made) => {
      const request = indexedDB.open('combcast', made);
      request.onupgradeneeded = () => request.result.createObjectStore('swarms').put('kept', 'one');
      await new Promise((resolve) => (request.onsuccess = resolve));
      const { version, objectStoreNames } = request.result;
      request.result.close();
      return [version, ...Array.from(objectStoreNames)];
    }, made);
  await version(40);
  await open(page);
  await expect(page.getByRole('alert')).toContainText('This device holds hives of a newer Combcast.');
  await page.getByRole('button', { name: 'Draw what you found' }).filter({ visible: true }).click();
  await page.getByRole('textbox', { name: 'Frames of bees, lower deep' }).fill('4');
  await expect(page.getByText('Visits: 11 June')).toBeVisible();
  await reload(page);
  await expect(page.getByRole('textbox', { name: 'Frames of bees, lower deep' })).toHaveValue('4');
  expect(await version(undefined)).toEqual([40, 'swarms']);
});

test('without storage, or with an older or newer page beside it, the page works and says what is not kept', async ({ page, context }) => {
  const hold = await context.newPage();
  await bare(hold);
  const connect = (version: number) =>
    hold.evaluate(
      (version) =>
        new Promise<void>((resolve) => {
          const request = indexedDB.open('combcast', version);
          request.onupgradeneeded = () => {
            if (version === 1) request.result.createObjectStore('files');
          };
          // It does not make way for a newer one, as the first version's page did not.
          request.onsuccess = () => {
            addEventListener('letgo', () => request.result.close(), { once: true });
            resolve();
          };
        }),
      version,
    );
  await connect(1);
  await open(page);
  await expect(page.getByRole('alert')).toContainText('Another window of this page is older and holds the storage.');
  await hold.evaluate(() => dispatchEvent(new Event('letgo')));
  await reload(page);
  await expect(story(page)).toContainText('day 43');
  await expect(page.getByRole('alert')).toHaveCount(0);
  await connect(7);
  await expect(page.getByRole('alert')).toContainText('A newer Combcast was opened in another window.');
  await changing(page);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await expect(page.getByRole('alert')).toBeVisible();
  await hold.close();
  const without = await context.newPage();
  await without.addInitScript(() => Object.defineProperty(globalThis, 'indexedDB', { value: undefined }));
  await without.goto('./');
  await expect(story(without)).toContainText('day 43');
  await expect(without.getByRole('alert')).toContainText('Nothing can be kept on this device');
  await without.goto('./#/visit');
  await without.getByRole('textbox', { name: 'Frames of bees, lower deep' }).fill('4');
  await expect(without.getByText('Visits: 11 June')).toBeVisible();
});

test('what a page of the first version kept becomes the first hive', async ({ page, browser, baseURL }) => {
  const context = await browser.newContext({ baseURL: baseURL ?? '' });
  const elsewhere = await context.newPage();
  await openYard(elsewhere);
  const [hive] = await inStorage(elsewhere, []);
  await context.close();
  await bare(page);
  await page.evaluate(async (hive) => {
    const wait = (request: IDBRequest) => new Promise((resolve) => (request.onsuccess = resolve));
    const scenario = { ...(hive?.scenario as object), name: 'An older page’s plan' };
    localStorage.setItem('combcast', JSON.stringify({ scenario, faultyText: null, units: 'us', day: 15_510, twinKind: 'feed', kept: null, recordName: null }));
    const request = indexedDB.open('combcast', 1);
    request.onupgradeneeded = () => request.result.createObjectStore('files');
    await wait(request);
    request.result.close();
  }, hive);
  await page.goto('./');
  await expect(story(page)).toContainText('day 51');
  await expect(page.getByRole('button', { name: 'lb, °F' })).toHaveAttribute('aria-pressed', 'true');
  await page.getByRole('link', { name: 'An older page’s plan' }).click();
  await expect(names(page)).toHaveText(['An older page’s plan']);
});

test('the yard has no access faults, and fits the page', async ({ page }, { project }) => {
  await openYard(page);
  await add(page, DRAWN);
  await expect(page.getByRole('row').filter({ hasText: DRAWN }).getByRole('cell').last()).toHaveText('12');
  await page.getByRole('button', { name: 'Link that holds the plan' }).click();
  await bringIn(page, 'nonsense');
  await expect(page.getByRole('alert')).toBeVisible();
  expect(await accessFaults(page)).toEqual([]);
  await page.screenshot({ path: `gallery/yard-${project.name}.png`, fullPage: true });
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await accessFaults(page)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wide).toBeLessThanOrEqual(0);
});
