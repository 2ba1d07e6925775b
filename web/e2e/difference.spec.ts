import type { Page } from '@playwright/test';
import { accessFaults, changing, compared, date, expect, isPhone, open, test } from './page';

const strip = (page: Page) => page.locator('.stage svg').first();
/** The row's name with the chosen day's difference: beside the strip in lines of their own, inside it in one. */
const told = async (page: Page): Promise<string> => {
  const texts = await strip(page).locator('text').allTextContents();
  const at = texts.findIndex((one) => one.toLowerCase().startsWith('difference'));
  return at < 0 ? '' : isPhone(page) ? (texts[at] ?? '') : texts.slice(at, at + 3).join(', ');
};
const rule = (page: Page) => strip(page).locator('line.sure');
const tried = (page: Page) => page.getByRole('region', { name: 'Tried over and over' });

/** What a table of the page says the day's bees differ by, to the hundred. */
async function inFigures(page: Page): Promise<string> {
  const [plan, twin] = await compared(page, 'bees');
  return `${plan > twin ? '+' : '−'}${Math.abs(plan - twin).toLocaleString('en-GB')} bees`;
}

test('the strip has a row for the difference of plan and twin, which follows the day and the plan', async ({ page }) => {
  await open(page);
  await expect.poll(() => told(page)).toContain(await inFigures(page));
  const before = await told(page);
  for (let week = 0; week < 5; week += 1) await date(page).press('Shift+ArrowRight');
  await expect.poll(() => told(page)).not.toBe(before);
  expect(await told(page)).toMatch(/\+[12]\d,\d00 bees/);
  // Compared with nothing there is no row; compared with itself there is no difference.
  const row = await strip(page).evaluate((svg) => svg.getBoundingClientRect().height);
  await changing(page);
  await page.getByRole('radio', { name: 'nothing' }).check();
  await expect.poll(() => told(page)).toBe('');
  expect(await strip(page).evaluate((svg) => svg.getBoundingClientRect().height)).toBeLessThan(row);
  await page.getByRole('radio', { name: 'this plan as it is now' }).check();
  await expect.poll(() => told(page)).toContain('no difference');
});

test('where seasons were tried the row has their band, what is compared, and where they agree', async ({ page }) => {
  test.slow();
  await open(page);
  await changing(page);
  await page.getByRole('radio', { name: /without the rain/ }).check();
  await page.getByRole('button', { name: 'Close' }).click();
  await expect.poll(() => told(page)).toMatch(/−\d,\d00 bees/);
  await expect(rule(page)).toHaveCount(0);
  await tried(page).getByRole('heading', { name: /In how many seasons is the plan better/ }).click();
  await expect(tried(page).getByText(/better in \d+ of 200\s+seasons/)).toBeVisible({ timeout: 30_000 });
  await expect.poll(() => told(page)).toMatch(/−\d,\d00 bees.*−\d,\d00 to −\d,\d00/);
  // For the plan until the rain is missed, against it from then on; no rule before the first rain.
  expect(await rule(page).evaluateAll((all) => all.map((one) => one.classList.contains('against')))).toEqual([false, true]);
  await tried(page).getByRole('combobox', { name: 'Compare' }).selectOption({ label: 'ripe honey in the comb' });
  await expect.poll(() => told(page)).toMatch(/[+−][\d.]+ (kg|lb|g) of honey/);
  await tried(page).getByRole('combobox', { name: 'Compare' }).selectOption({ label: 'adult workers' });

  // As a table too.
  await page.getByText('The season as a table, and what happened').click();
  const table = page.getByRole('region', { name: 'The season week by week' });
  for (const name of ['Plan less twin, bees', '9 seasons in 10', 'Plan better, of 200 seasons']) await expect(table.getByRole('columnheader', { name })).toBeVisible();
  const week = table.getByRole('row').filter({ has: page.getByRole('button', { name: '10 June' }) });
  await expect(week).toContainText(/−\d,\d00 bees/);
  expect(await accessFaults(page)).toEqual([]);

  // Another plan: its own difference at once, the band when it has been tried.
  await changing(page);
  await page.getByRole('checkbox', { name: 'Feed them' }).uncheck();
  await expect(rule(page)).toHaveCount(0);
  await expect.poll(() => rule(page).count(), { timeout: 30_000 }).toBeGreaterThan(0);
});

test('the printed season has the row too', async ({ page }) => {
  await open(page);
  await page.evaluate(() => {
    window.print = () => {};
  });
  await page.getByRole('button', { name: 'Print the season' }).click();
  await expect(page.locator('.season-paper svg').first()).toContainText(/\+[\d,]+ bees/);
});

test('in large type on a projector the story begins, and hive and season stand on the first screen', async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await open(page);
  const usual = (await page.locator('h1').textContent()) ?? '';
  expect(usual).toContain('held back');
  await expect(page.getByRole('button', { name: 'More of the day' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Large type' }).click();
  // What holds her back is told in brief too; how much comb and brood there is is drawn.
  await expect(page.locator('h1')).not.toContainText('frames');
  await expect(page.locator('h1')).toContainText('held back');
  for (const example of ['first', 'deutsch']) {
    if (example === 'deutsch') await page.getByRole('button', { name: 'DE, Deutsch' }).click();
    const last = strip(page).locator('text.title', { hasText: /^(Brake|Bremse)$/ });
    await expect(last).toBeVisible();
    await expect.poll(async () => ((await last.boundingBox())?.y ?? Number.NaN) + 34).toBeLessThan(800);
    // Nothing that is named beside the frame runs into its caption.
    const gap = await page.locator('.face').evaluate((face) => {
      const words = [...face.querySelectorAll('.named li')].map((one) => one.getBoundingClientRect().bottom);
      return (face.querySelector('figcaption em')?.getBoundingClientRect().top ?? 0) - Math.max(...words);
    });
    expect(gap).toBeGreaterThanOrEqual(-1);
  }
  await page.getByRole('button', { name: 'Mehr zum Tag' }).click();
  await expect(page.locator('h1')).toContainText('Waben');
  await expect(page.getByRole('heading', { name: 'Was kommt' })).toBeVisible();
  await page.getByRole('button', { name: 'Weniger zum Tag' }).press('Enter');
  await expect(page.locator('h1')).not.toContainText('Waben');
  expect(await accessFaults(page)).toEqual([]);
});
