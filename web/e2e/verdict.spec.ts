import { fileURLToPath } from 'node:url';
import type { Locator } from '@playwright/test';
import { accessFaults, changing, date, expect, isPhone, open, story, test } from './page';

const demo = fileURLToPath(new URL('../../scenarios/visits/alder-row-3.toml', import.meta.url));

test('the range of nine in ten colonies stands in the story and behind the lines, and follows a change', async ({ page }) => {
  await open(page);
  const range = story(page).locator('.range[title]');
  await expect(range).toHaveText(/^ \([\d,]+ to [\d,]+\)$/, { timeout: 20_000 });
  const [low, high] = ((await range.textContent()) ?? '').match(/[\d,]+/g)?.map((text) => Number(text.replaceAll(',', ''))) ?? [];
  expect(low).toBeGreaterThan(1000);
  expect(high).toBeGreaterThan(low ?? Number.NaN);
  await expect(page.locator('.stage svg path.most')).toHaveCount(1);
  await expect(page.locator('.stage svg path.half')).toHaveCount(1);
  await expect(page.locator('.stage svg path.limit')).toHaveCount(2);
  const likely = page.getByRole('region', { name: 'When, in nine of ten' });
  await expect(likely.getByRole('heading', { level: 2 })).toHaveText('Of 200 colonies like this one');
  await expect(likely.getByText(/^\d+ (May|June)( to \d+ \w+)?/).first()).toBeVisible();
  await expect(likely.getByText(/^\d+ of 200$/)).toHaveCount(5);
  // Another day, another range; it is spoken with nothing left out.
  const before = await range.textContent();
  for (let week = 0; week < 5; week += 1) await date(page).press('Shift+ArrowRight');
  await expect(range).not.toHaveText(before ?? '');
  // Another plan, other bands, without a button.
  const band = await page.locator('.stage svg path.most').getAttribute('d');
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('wet spring unfed');
  await expect.poll(() => page.locator('.stage svg path.most').getAttribute('d')).not.toBe(band);
  await expect.poll(() => page.evaluate(() => performance.getEntriesByName('combcast: bands of the members').length)).toBeGreaterThan(1);
  // What an established colony has from its first day on is no date.
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('august treatment');
  await expect(likely.getByText(/^from the start to \d+ \w+/).first()).toBeVisible();
  await expect(likely.getByText('first young bees')).toHaveCount(0);
  await expect(likely.getByText('drones flying')).toBeVisible();
});

test('the demo hive gets its verdict, its reason and its forecast', async ({ page }) => {
  test.slow();
  await open(page);
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  await judged.getByRole('button', { name: 'Take the demo hive’s six visits' }).click();
  await expect(judged.getByRole('heading', { level: 3 })).toHaveText(/^(Behind|Far behind)/, { timeout: 30_000 });
  await expect(judged.getByText(/after 6 visits, on 18 June/)).toBeVisible();
  await expect(judged.getByText('Worked out from 2,000 colonies.')).toBeVisible({ timeout: 60_000 });
  await expect(judged.getByText(/Of 100 colonies that began like this one and had the same weather, \d+ are weaker/)).toBeVisible();
  const reason = judged.getByRole('listitem').filter({ hasText: 'in 100' }).first();
  await expect(reason).toContainText('A poor queen');
  await expect(reason).toContainText('Tells it apart: look for eggs');
  await expect(judged.getByText(/the queen was seen, and no eggs/).first()).toBeVisible();
  await expect(judged.getByRole('row').filter({ hasText: '25 June' })).toContainText(/[\d,]+ to [\d,]+/);
  // Frames in quarters as they were entered, and syrup in its own unit beside its sugar.
  await expect(judged.getByText('found 2¼', { exact: true })).toBeVisible();
  await expect(judged.getByText('Sugar in the syrup taken, kg')).toBeVisible();
  await expect(judged.getByText('(2.1 litres of 1:1)')).toBeVisible();
  // Six visits as crosses in each of the three rows that count frames.
  const crosses = page.locator('.stage svg path.cross');
  await expect.poll(() => crosses.count()).toBeGreaterThanOrEqual(isPhone(page) ? 9 : 18);
  expect(await accessFaults(page)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wide).toBe(0);
  await page.screenshot({ path: `test-results/gallery/verdict-${isPhone(page) ? 'phone' : 'desktop'}.png`, fullPage: true });
  // The answer comes before the ways to ask another, and only causes that count have a row.
  const top = async (of: Locator) => (await of.boundingBox())?.y ?? Number.NaN;
  expect(await top(judged.locator('label.file'))).toBeGreaterThan(await top(judged.getByText('Worked out from 2,000 colonies.')));
  await expect(judged.getByText('Causes can go together')).toBeVisible();
  await expect(judged.locator('ol .weight').filter({ hasText: 'under' })).toHaveCount(0);
  await expect(judged.locator('.headline .range')).toHaveText(/^\(.+ to .+\)$/);
  // From the last visit on story and strip show the colonies that fit what was found, and say so.
  const range = story(page).locator('.range[title]');
  const fitting = page.locator('.stage svg path.fitting');
  await expect(fitting).toHaveCount(2);
  await expect(range).toHaveText(/^ \([\d,]+ to [\d,]+\)$/);
  // Up to the chosen day there was a visit that the plan does not know.
  await expect(story(page)).toContainText('This is the plan, which knows nothing of the visit of 11 June.');
  for (let week = 0; week < 7; week += 1) await date(page).press('Shift+ArrowRight');
  await expect(story(page)).toContainText('30 July');
  await expect(story(page)).toContainText('nothing of the visit of 18 June.');
  await expect(range).toHaveText(/^ \(in the plan; 9 in 10 colonies that fit what was found: [\d,]+ to [\d,]+\)$/);
  const ends = (await range.textContent())?.match(/[\d,]{3,}/g) ?? [];
  await expect(judged.getByRole('row').filter({ hasText: '30 July' })).toContainText(ends.join(' to '));
  // The yard knows of visits that are looked at, though they are of a file.
  await page.goto('./#/yard');
  await expect(page.getByRole('main')).toContainText('6 visits of a file are looked at, the last on 18 June');
  await page.goto('./#/');
  await judged.getByRole('button', { name: 'Take the visits away' }).click();
  await expect(crosses).toHaveCount(0);
  await expect(story(page)).not.toContainText('This is the plan');
  await expect(fitting).toHaveCount(0);
  await expect(range).not.toContainText('fit what was found');
});

test('a file of visits: what cannot be is set aside, what cannot be read is shown with its line', async ({ page }) => {
  test.slow();
  await open(page);
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  const file = judged.getByLabel('Open a file of visits…');
  await file.setInputFiles({ name: 'bad.toml', mimeType: 'text/plain', buffer: Buffer.from('[[visit]]\ndate = 2012-05-07\nframes_of_bee = [4]\n') });
  await expect(judged.getByText(/line 3, column 1/)).toBeVisible();
  await expect(judged.locator('pre')).toContainText('frames_of_bee = [4]');
  const odd = '[[visit]]\ndate = 2012-06-04\nframes_of_bees = [4]\n[[visit]]\ndate = 2019-06-04\nframes_of_bees = [4]\n';
  await file.setInputFiles({ name: 'odd.toml', mimeType: 'text/plain', buffer: Buffer.from(odd) });
  await expect(judged.getByText(/visit 2 \(4 June\)/)).toBeVisible({ timeout: 30_000 });
  await expect(judged.getByText(/after one visit, on 4 June/)).toBeVisible();
  await expect(judged.locator('pre')).toHaveCount(0);
  // Another file while the first is worked out: the newer one counts.
  await file.setInputFiles(demo);
  await expect(judged.getByText(/after 6 visits, on 18 June/)).toBeVisible({ timeout: 30_000 });
});

test('where the plan lies in another year the demo is not offered, and visits that cannot be used are said in a sentence', async ({ page }) => {
  await open(page);
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  const next = page.getByRole('region', { name: 'What next' });
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('drone frame on time');
  await expect(story(page)).toContainText('day 43');
  await expect(judged.getByRole('button', { name: /demo hive/ })).toHaveCount(0);
  await judged.getByLabel('Open a file of visits…').setInputFiles(demo);
  const said = judged.getByText(/^No verdict: none of these visits lies in the plan’s season, \d+ \w+ 2013 to \d+ \w+ \d{4}\.$/);
  await expect(said).toBeVisible();
  const details = judged.getByText(/2012-05-14|14 May/);
  await expect(details.first()).toBeHidden();
  await judged.getByText('Visit by visit').click();
  await expect(details.first()).toBeVisible();
  await expect(next.getByRole('button', { name: /^List what to do/ })).toHaveCount(0);
  await expect(next.getByText(/no list after visits of which none could be used/)).toBeVisible();
  await judged.getByRole('button', { name: 'Take the visits away' }).click();
  await expect(next.getByRole('button', { name: /^List what to do from/ })).toBeVisible();
});
