import { readFileSync } from 'node:fs';
import { accessFaults, expect, open, reload, test } from './page';

const checks = JSON.parse(readFileSync(new URL('../src/evidence/checks.json', import.meta.url), 'utf8')) as { id: string; inside: boolean; tested: boolean }[];
const tested = checks.filter((one) => one.tested);
const outside = checks.filter(({ inside }) => !inside).map(({ id }) => id);

test('the checks, the failing ones, the parameters and what is left out, without a network', async ({ page, context }) => {
  await open(page);
  await expect(page.getByText('it opens without a network')).toBeVisible({ timeout: 20_000 });
  await context.setOffline(true);
  await reload(page);
  await page.getByRole('link', { name: 'Evidence' }).click();
  await expect(page.getByRole('heading', { name: /^Published checks/ })).toContainText(`${tested.filter(({ inside }) => inside).length} of ${tested.length} inside`);
  await expect(page.getByText(`${checks.length - tested.length} rows more test nothing`)).toBeVisible();
  await page.getByRole('radio', { name: /^outside/ }).check();
  const table = page.getByRole('table', { name: /^Published checks/ });
  await expect(table.getByRole('rowheader')).toHaveText(outside);
  await expect(table.getByText('✕ outside')).toHaveCount(outside.length);

  const rows = page.getByRole('table', { name: /^Parameters/ }).getByRole('rowheader');
  await expect.poll(() => rows.count()).toBeGreaterThan(100);
  await page.getByRole('searchbox', { name: 'Find in the parameters' }).fill('flight first');
  await expect(rows.filter({ hasText: 'forage.flight_from_c' })).toHaveCount(1);
  await expect.poll(() => rows.count()).toBeLessThan(20);
  await page.getByRole('combobox', { name: 'Basis' }).selectOption('assumed');
  await expect(rows.filter({ hasText: 'forage.flight_from_c' })).toHaveCount(0);

  await expect(page.getByRole('listitem').filter({ hasText: 'Foulbrood' })).toBeVisible();
  await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  expect(await accessFaults(page)).toEqual([]);
});

test.describe('of a browser that speaks German', () => {
  test.use({ locale: 'de-AT' });

  test('the tables are German, without a network too, and what was searched for outlasts a change of language', async ({ page, context }) => {
    await page.goto('./');
    await expect(page.getByText('Sie öffnet sich ohne Netz')).toBeVisible({ timeout: 20_000 });
    await context.setOffline(true);
    await page.goto('./#/evidence');
    await expect(page.getByRole('heading', { name: 'Was das Modell weglässt' })).toBeVisible();
    const parameters = page.getByRole('table', { name: /^Parameter/ });
    const row = parameters.getByRole('row').filter({ hasText: 'forage.flight_from_c' });
    await expect(row).toContainText('Lufttemperatur, bei der die ersten Bienen fliegen.');
    await expect(row).toContainText('Winston 1987 (aus dem Gedächtnis)');
    await expect(parameters.getByRole('row').filter({ hasText: 'laying_dark_h' })).toContainText('9,15');
    const checked = page.getByRole('table', { name: /^Veröffentlichte/ });
    await expect(checked.getByRole('row').filter({ hasText: '01a-N' })).toContainText('21 Tage (19 bis 22)');
    // What is still English are the names by which the program calls its parameters, one in each row.
    const english = page.locator('.evidence [lang=en]');
    await expect(english).toHaveCount(await parameters.getByRole('row').filter({ has: page.locator('td') }).count());
    await page.getByRole('searchbox', { name: 'In den Parametern suchen' }).fill('ersten bienen');
    await expect(row).toHaveCount(1);
    await expect.poll(() => parameters.getByRole('row').count()).toBeLessThan(20);
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole('button', { name: /English/ }).click();
    await expect(page.getByRole('heading', { name: 'What it does not model' })).toBeVisible();
    await expect(page.getByRole('searchbox', { name: 'Find in the parameters' })).toHaveValue('ersten bienen');
  });

  test('looks', async ({ page }, { project }) => {
    await page.goto('./#/evidence');
    await expect(page.getByRole('heading', { name: 'Was das Modell weglässt' })).toBeVisible();
    await page.screenshot({ path: `gallery/evidence-german-${project.name}.png`, clip: { x: 0, y: 0, ...(page.viewportSize() ?? { width: 400, height: 800 }) } });
    await page.evaluate(() => document.querySelector('#parameters')?.scrollIntoView());
    await page.screenshot({ path: `gallery/evidence-german-parameters-${project.name}.png` });
  });
});

test('looks', async ({ page }, { project }) => {
  await page.goto('./#/evidence');
  await page.getByRole('radio', { name: /^outside/ }).check();
  await expect(page.getByRole('heading', { name: 'What it does not model' })).toBeVisible();
  await page.screenshot({ path: `gallery/evidence-${project.name}.png`, clip: { x: 0, y: 0, ...(page.viewportSize() ?? { width: 400, height: 800 }) } });
  await page.evaluate(() => document.querySelector('#parameters')?.scrollIntoView());
  await page.screenshot({ path: `gallery/evidence-parameters-${project.name}.png` });
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await accessFaults(page)).toEqual([]);
});
