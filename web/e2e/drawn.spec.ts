import { changing, expect, open, story, test } from './page';
import type { Page } from '@playwright/test';

const judged = (page: Page) => page.getByRole('region', { name: 'Is she in step?' });
const verdict = (page: Page) => judged(page).getByRole('heading', { level: 3 });
const done = (page: Page) => expect(judged(page).getByText('Worked out from 2,000 colonies.')).toBeVisible({ timeout: 60_000 });
const runs = (page: Page) => page.evaluate(() => performance.getEntriesByName('combcast: verdict of 2000').length);

/** Draws a visit on the sheet: whether eggs were seen. */
async function draw(page: Page, eggs: 'yes' | 'no'): Promise<void> {
  await page.goto('./#/visit');
  await page.getByRole('group', { name: 'Eggs seen' }).getByRole('button', { name: eggs, exact: true }).click();
  await page.getByRole('button', { name: 'Compare' }).click();
}

test('visits drawn here are judged by themselves, once for each change, and not without any', async ({ page }) => {
  test.slow();
  await open(page);
  await page.waitForTimeout(2500);
  expect(await runs(page)).toBe(0);
  await expect(judged(page).getByText('so far…')).toHaveCount(0);
  await draw(page, 'yes');
  await done(page);
  await expect(verdict(page)).toHaveText(/\w/);
  await expect(judged(page).getByText(/after one visit, on 11 June/)).toBeVisible();
  expect(await runs(page)).toBe(1);
  // Away and back: nothing has changed.
  await page.goto('./#/evidence');
  await page.goto('./#/');
  await page.waitForTimeout(2500);
  expect(await runs(page)).toBe(1);
  // Another stroke: one more.
  await draw(page, 'no');
  await expect.poll(() => runs(page), { timeout: 60_000 }).toBe(2);
  // Taken away they stay away, and the press brings them back.
  await judged(page).getByRole('button', { name: 'Take the visits away' }).click();
  await page.waitForTimeout(2500);
  await expect(verdict(page)).toHaveCount(0);
  await judged(page).getByRole('button', { name: 'Take the visits drawn here' }).click();
  await expect.poll(() => runs(page), { timeout: 60_000 }).toBe(3);
});

test('the list of what next keeps up with the plan once it is there', async ({ page }) => {
  test.slow();
  await open(page);
  const next = page.getByRole('region', { name: 'What next' });
  const lists = () => page.evaluate(() => performance.getEntriesByName('combcast: what next').length);
  await next.getByRole('button', { name: /^List what to do from/ }).click();
  await expect.poll(lists, { timeout: 60_000 }).toBe(1);
  await changing(page);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await expect(next.getByText('have changed since this list was made')).toBeVisible();
  await expect.poll(lists, { timeout: 60_000 }).toBe(2);
  await expect(next.getByText('have changed since this list was made')).toHaveCount(0);
});

test('an example opens as a hive of its own, and can be taken back', async ({ page }) => {
  await open(page);
  const first = 'A package in a wet spring, fed';
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('drawn comb');
  await expect(page.getByText(`${first} stands as it was.`)).toBeVisible();
  await expect(page.locator('.yard a')).not.toHaveText(first);
  await page.getByRole('button', { name: `Undo, back to ${first}` }).click();
  await expect(page.locator('.yard a')).toHaveText(first);
  await expect(story(page)).toContainText('day 43');
  await page.goto('./#/yard');
  await expect(page.getByRole('button', { name: /^Open / })).toHaveCount(1);
  // What was taken back can be brought back too.
  await page.getByRole('button', { name: 'Undo', exact: true }).first().click();
  await page.goto('./#/yard');
  await expect(page.getByRole('button', { name: /^Open / })).toHaveCount(2);
});
