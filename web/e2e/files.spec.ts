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

test('a file opens as a hive of its own, as an example does; the text of the open hive changes that one', async ({ page }) => {
  await open(page);
  const first = 'A package in a wet spring, fed';
  const before = await told(page);
  await changing(page);
  const panel = page.locator('#change');
  const notice = page.getByText('is open as a hive of its own');
  const name = panel.getByLabel('This hive is called');
  const header = page.locator('.yard a');
  await page.getByLabel('Scenario file', { exact: true }).setInputFiles(
    toml(wetSpring.replace(/^name = .*$/m, 'name = "Mediums"').replaceAll(/^frames = 10$/gm, 'frames = 10\nsize = "medium"')),
  );
  await expect(notice).toContainText(`Mediums is open as a hive of its own; ${first} stands as it was.`);
  await expect(name).toHaveValue('Mediums');
  await expect(header).toHaveText('Mediums');
  await expect(page.getByRole('button', { name: /lower medium, frame 4/ })).toBeVisible();
  // What is typed is another plan of the hive that is open. With it the notice goes, and it does not come again.
  await panel.getByText('The file as text').click();
  const text = panel.getByRole('textbox', { name: 'The scenario file as text' });
  await expect(text).toHaveValue(/name = "Mediums"/);
  await text.fill((await text.inputValue()).replace('name = "Mediums"', 'name = "Shallow brood"'));
  await expect(header).toHaveText('Shallow brood');
  await expect(notice).toHaveCount(0);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('drawn comb');
  await expect(page.getByRole('combobox', { name: 'On' })).toHaveValue('drawn');
  await expect(notice).toContainText('Shallow brood stands as it was.');
  await page.goto('./#/yard');
  await expect(page.getByRole('button', { name: /^Open / })).toHaveCount(3);
  await page.getByRole('button', { name: `Open ${first}` }).click();
  await expect.poll(() => told(page)).toBe(before);
  await expect(notice).toHaveCount(0);
});

test('that a file was opened is told in no other language, and not after a change', async ({ page }) => {
  await open(page);
  await changing(page);
  const notice = page.locator('.notices .news');
  const pick = () => page.getByLabel('Scenario file', { exact: true }).setInputFiles(toml(wetSpring));
  await pick();
  await expect(notice).toHaveCount(1);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await expect(notice).toHaveCount(0);
  await pick();
  await expect(notice).toHaveCount(1);
  await page.getByRole('button', { name: 'Deutsch' }).click();
  await expect(notice).toHaveCount(0);
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
  // A plan that speaks of it takes it along to a hive of its own.
  await page.getByText('The file as text').click();
  const mine = await page.getByRole('textbox', { name: 'The scenario file as text' }).inputValue();
  await page.getByLabel('Scenario file', { exact: true }).setInputFiles(toml(mine.replace(/^name = .*$/m, 'name = "Another garden"')));
  await expect(page.getByText('Another garden is open as a hive of its own')).toBeVisible();
  const there = await told(page);
  await kept(page, 'Another garden');
  await reload(page);
  await expect.poll(() => told(page)).toBe(there);
  await changing(page);
  await expect(page.getByRole('combobox', { name: 'Of', exact: true })).toHaveValue('record:garden.csv');
  await chooser.setInputFiles(csv([...rows.slice(0, 9), '2012-01-10,warm,3,0']));
  await expect(page.getByText(/garden\.csv.*line 11/)).toBeVisible();
});
