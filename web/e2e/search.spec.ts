import { accessFaults, changing, expect, open, test } from './page';

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

test('a search can be stopped, and nothing that may be done is refused in words', async ({ page }) => {
  await open(page);
  await page.getByRole('heading', { name: 'Look for a better plan' }).click();
  const part = page.getByRole('region', { name: 'Look for a better plan' });
  for (const name of ['treatments', 'feed', 'another box', 'breaking queen cells']) await part.getByRole('checkbox', { name }).check();
  await part.getByRole('button', { name: /^Look, from/ }).click();
  await part.getByRole('button', { name: /^Stop/ }).click();
  await expect(part.getByText('Stopped before anything could be said.').or(part.getByRole('listitem').first())).toBeVisible();
  for (const box of await part.getByRole('checkbox').all()) await box.uncheck();
  await expect(part.getByText('Choose something that may be done.')).toBeVisible();
  await expect(part.getByRole('button', { name: /^Look, from/ })).toBeDisabled();
});
