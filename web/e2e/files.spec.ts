import { readFileSync } from 'node:fs';
import { changing, compared, expect, kept, open, reload, story, test, told } from './page';

const wetSpring = readFileSync(new URL('../../scenarios/wet-spring.toml', import.meta.url), 'utf8');
const toml = (text: string) => ({ name: 'mine.toml', mimeType: 'application/toml', buffer: Buffer.from(text) });

test('a faulty scenario file is shown with its place, kept, and mended in place', async ({ page }) => {
  await open(page);
  await changing(page);
  const before = await compared(page, 'bees');
  const faulty = wetSpring.replace('package.pounds = 3', 'package.pounds = "three"');
  await page.getByLabel('Scenario file', { exact: true }).setInputFiles(toml(faulty));
  await expect(page.locator('pre')).toContainText('package.pounds = "three"');
  await expect(page.locator('pre')).toContainText('^');
  const text = page.getByRole('textbox', { name: 'The scenario file as text' });
  await expect(text).toHaveValue(faulty);
  expect(await compared(page, 'bees')).toEqual(before);
  // A control still works, and does not take the text away.
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await expect.poll(async () => (await compared(page, 'bees'))[0]).not.toBe(before[0]);
  await expect(text).toHaveValue(faulty);
  await text.fill(wetSpring.replace('package.pounds = 3', 'package.pounds = 4'));
  await expect(page.locator('pre')).toHaveCount(0);
  await expect(page.getByRole('slider', { name: 'Weight of bees' })).toHaveValue('1.8');
});

test('what was changed, and what could not be read, survives a reload', async ({ page }) => {
  await open(page);
  await changing(page);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await page.getByText('The file as text').click();
  const text = page.getByRole('textbox', { name: 'The scenario file as text' });
  await expect(text).toHaveValue(/kilograms = 2/);
  await text.fill('name = "half a sent');
  await expect(page.locator('pre')).toBeVisible();
  await kept(page, 'name = "half a sent');
  await reload(page);
  await expect(story(page)).toContainText('day 43.');
  await changing(page);
  await expect(page.getByRole('textbox', { name: 'Weight of bees' })).toHaveValue('2');
  await expect(text).toHaveValue('name = "half a sent');
});

test('a season that cannot be is said in words, and the last one stays', async ({ page }) => {
  await open(page);
  await changing(page);
  await page.getByText('The file as text').click();
  const before = await told(page);
  await page.getByRole('textbox', { name: 'The scenario file as text' }).fill(wetSpring.replace('until = 2012-10-31', 'until = 2012-01-01'));
  await expect(page.getByText(/^line 11.*until:.*before it starts/)).toBeVisible();
  await expect.poll(() => told(page)).toBe(before);
});

test('a scenario is saved as a file that can be opened again', async ({ page }) => {
  await open(page);
  await changing(page);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2.25');
  await page.getByText('The file as text').click();
  await expect(page.getByRole('textbox', { name: 'The scenario file as text' })).toHaveValue(/2\.25/);
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save' }).click()]);
  expect(download.suggestedFilename()).toMatch(/^a-package-in-a-wet-spring.*\.toml$/);
  const saved = readFileSync(await download.path(), 'utf8');
  expect(saved).toContain('kilograms = 2.25');
});

test('an example opens by name', async ({ page }) => {
  await open(page);
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('drawn comb');
  await expect(page.getByRole('combobox', { name: 'On' })).toHaveValue('drawn');
});

test('weather of one’s own is read, and a faulty line is named', async ({ page }) => {
  const days = Array.from({ length: 366 }, (_, i) => new Date(Date.UTC(2012, 0, 1 + i)).toISOString().slice(0, 10));
  const rows = days.map((day, i) => `${day},${15 + (i % 7)},${5 + (i % 5)},${i % 4 ? 0 : 3}`);
  const csv = (lines: string[]) => ({ name: 'garden.csv', mimeType: 'text/csv', buffer: Buffer.from(['date,high_c,low_c,rain_mm', ...lines].join('\n')) });
  await open(page);
  await changing(page);
  const before = await told(page);
  const chooser = page.getByLabel('Weather file of your own');
  await chooser.setInputFiles(csv(rows));
  await expect.poll(() => told(page)).not.toBe(before);
  await expect(page.getByRole('combobox', { name: 'Of', exact: true })).toHaveValue('record:garden.csv');
  await kept(page, 'garden.csv');
  await reload(page);
  await expect(story(page)).toContainText('day 43.');
  await changing(page);
  await chooser.setInputFiles(csv([...rows.slice(0, 9), '2012-01-10,warm,3,0']));
  await expect(page.getByText(/garden\.csv.*line 11/)).toBeVisible();
});
