import { accessFaults, changing, expect, open, reload, test } from './page';

test('a better plan is looked for, put into the plan, and taken out again', async ({ page }) => {
  await open(page);
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  const part = page.getByRole('region', { name: 'Look for a better plan' });
  await expect(part.getByRole('checkbox', { name: 'drone frames' })).toBeChecked();
  await part.getByRole('button', { name: /^Look, from/ }).click();
  const first = part.getByRole('listitem').first();
  await expect(first).toContainText(/drone frame/i, { timeout: 60_000 });
  // The surer answer follows.
  await expect(part.getByRole('button', { name: /^Look, from/ })).toBeVisible({ timeout: 60_000 });
  await expect(part.getByText('which flatters them')).toHaveCount(0);
  await expect(first).toContainText(/^A (pair of )?drone frames?.*better in \d+ of \d+ colonies/);
  await expect(first).toContainText(/Costs \d+ visit/);
  expect(await accessFaults(page)).toEqual([]);
  const [file] = await Promise.all([page.waitForEvent('download'), part.getByRole('button', { name: 'Save the best as a calendar file' }).click()]);
  expect(file.suggestedFilename()).toMatch(/^combcast-plan-2012-\d\d-\d\d\.ics$/);

  await first.getByRole('button', { name: 'Put it into the plan' }).click();
  await expect(first.getByRole('status')).toContainText('It is in the plan');
  await changing(page);
  const moves = page.getByRole('group', { name: 'Moves' });
  await expect(moves).toContainText('drone frame in');
  // The plan as it was before is drawn beside it.
  await expect(page.getByRole('radio', { name: /as it was kept|as it is now/ })).toBeChecked();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(moves).not.toContainText('drone frame in');
});

test('what a search found is told anew in another language, and nothing is searched again', async ({ page }) => {
  await open(page);
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  const part = page.locator('section.searched');
  await part.getByRole('button', { name: /^Look, from/ }).click();
  await expect(part.getByRole('button', { name: /^Look, from/ })).toBeVisible({ timeout: 60_000 });
  const dated = part.locator('td').first();
  await expect(dated).toContainText(/put|drone frame/i);
  const searches = () => page.evaluate(() => performance.getEntriesByName('combcast: search').length);
  const before = await searches();
  await page.getByRole('button', { name: /Deutsch/ }).click();
  await expect(dated).toContainText('Drohnenrahmen');
  for (const caution of await part.locator('.caution').all()) await expect(caution).not.toContainText(/ the | kill /);
  expect(await searches()).toBe(before);
});

test('a search can be stopped, goes on where it stopped, and ends as one that was never stopped', async ({ page }) => {
  await open(page);
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  const part = page.getByRole('region', { name: 'Look for a better plan' });
  const look = part.getByRole('button', { name: /^Look, from/ });
  const on = part.getByRole('button', { name: 'Look on, where it stopped' });
  const stop = part.getByRole('button', { name: /^Stop, and keep/ });
  for (const name of ['treatments', 'another box', 'breaking queen cells']) await part.getByRole('checkbox', { name }).check();
  await part.getByLabel('Then', { exact: true }).selectOption('honey');

  await look.click();
  await expect(part.getByRole('status')).toHaveText('Trying plans…');
  // The same button, so that the keyboard stays on it.
  await expect(stop).toBeFocused();
  await stop.click();
  await expect(on).toBeVisible({ timeout: 30_000 });
  await expect(part.getByText('Stopped before anything could be said.').or(part.getByText('which flatters them'))).toBeVisible();
  // Another wish is another search, and the same again goes on.
  await part.getByLabel('And then').selectOption('bees');
  await expect(on).toHaveCount(0);
  await expect(look).toBeVisible();
  await part.getByLabel('And then').selectOption('nothing more');
  await on.click();
  await expect(stop).toBeVisible();
  await expect(look).toBeVisible({ timeout: 60_000 });
  const list = part.getByRole('list');
  const stopped = await list.innerText();
  await expect(part.getByText('which flatters them')).toHaveCount(0);
  await expect(part.getByRole('listitem').first()).toContainText(/Mites on 100 bees: .*Ripe stores, syrup included: /s);

  await reload(page);
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  for (const name of ['treatments', 'another box', 'breaking queen cells']) await part.getByRole('checkbox', { name }).check();
  await part.getByLabel('Then', { exact: true }).selectOption('honey');
  await look.click();
  await expect(stop).toBeVisible();
  await expect(look).toBeVisible({ timeout: 60_000 });
  expect(await list.innerText()).toBe(stopped);
});

test('after visits, colonies that fit them are found first, and that can be stopped and gone on with too', async ({ page }) => {
  test.slow();
  await open(page);
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  await judged.getByRole('button', { name: 'Take the demo hive’s six visits' }).click();
  await expect(judged.getByText('Worked out from 2,000 colonies.')).toBeVisible({ timeout: 60_000 });
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  const part = page.getByRole('region', { name: 'Look for a better plan' });
  const on = part.getByRole('button', { name: 'Look on, where it stopped' });
  await part.getByRole('button', { name: 'Look, after these 6 visits' }).click();
  await expect(part.getByRole('status')).toHaveText('Finding colonies that fit the visits…');
  await part.getByRole('button', { name: /^Stop, and keep/ }).click();
  await expect(on).toBeVisible({ timeout: 30_000 });
  await on.click();
  await expect(part.getByRole('listitem').first()).toContainText(/drone frame/i, { timeout: 60_000 });
  await expect(part.getByRole('button', { name: 'Look, after these 6 visits' })).toBeVisible({ timeout: 60_000 });
  await expect(part.getByText('which flatters them')).toHaveCount(0);
});

test('several goals are taken in order, each once', async ({ page }) => {
  await open(page);
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  const part = page.getByRole('region', { name: 'Look for a better plan' });
  const [first, second, third] = [part.getByLabel('What is wanted most'), part.getByLabel('Then', { exact: true }), part.getByLabel('And then')];
  await expect(second).toHaveValue('');
  await expect(third).toHaveCount(0);
  await second.selectOption('honey');
  await third.selectOption('a colony that lives');
  await expect(part.getByText('Of plans that are as good in the first')).toBeVisible();
  // What is wanted first is not wanted again later.
  await first.selectOption('honey');
  await expect(second).toHaveValue('alive');
  await expect(third).toHaveValue('');
  await expect(second.getByRole('option', { name: 'ripe stores' })).toHaveCount(0);
  await second.selectOption('nothing more');
  await expect(third).toHaveCount(0);
  expect(await accessFaults(page)).toEqual([]);
});

test('that nothing may be done is refused in words', async ({ page }) => {
  await open(page);
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  const part = page.getByRole('region', { name: 'Look for a better plan' });
  // A list of what is there waits for nothing.
  await expect(part.getByRole('checkbox').first()).toBeVisible();
  for (const box of await part.getByRole('checkbox').all()) await box.uncheck();
  await expect(part.getByText('Choose something that may be done.')).toBeVisible();
  await expect(part.getByRole('button', { name: /^Look, from/ })).toBeDisabled();
});
