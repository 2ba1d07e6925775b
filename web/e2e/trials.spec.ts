import { accessFaults, changing, date, expect, isPhone, open, story, test } from './page';

test('in how many seasons the plan is better, by day and by measure', async ({ page }) => {
  test.slow();
  await open(page);
  const tried = page.getByRole('region', { name: 'Tried over and over' });
  await tried.getByRole('heading', { name: /In how many seasons is the plan better than the one without feed/ }).click();
  await expect(tried.getByText(/better in \d+ of 200\s+seasons/)).toBeVisible({ timeout: 30_000 });
  await expect(tried.locator('svg').first().locator('circle')).toHaveCount(200);
  await expect(tried.getByText(/On 11 June better in/)).toBeVisible();
  const told = await tried.locator('.told').first().textContent();
  await date(page).press('Shift+ArrowRight');
  await expect(tried.getByText(/On 18 June better in/)).toBeVisible();
  await expect(tried.locator('.told').first()).not.toHaveText(told ?? '');
  await tried.getByRole('combobox', { name: 'Compare' }).selectOption({ label: 'ripe honey in the comb' });
  await expect(tried.getByText(/ripe honey in the comb, (kg|lb), plan less twin/)).toBeVisible();
  expect(await accessFaults(page)).toEqual([]);
  await page.getByRole('button', { name: /Deutsch/ }).click();
  await expect(page.locator('details .told').first()).toContainText('18. Juni');
  await expect(page.locator('details .told').first()).not.toContainText(/seasons|better/);
});

test('the last safe day of a drone frame, and what being late does', async ({ page }) => {
  test.slow();
  await open(page);
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('drone frame on time');
  await expect(story(page)).not.toContainText('2012, day 43');
  await page.getByRole('button', { name: 'Close' }).click();
  const tried = page.getByRole('region', { name: 'Tried over and over' });
  await tried.getByRole('heading', { name: 'When must the drone frame come out?' }).click();
  await expect(tried.getByText('last sure day', { exact: true })).toBeVisible({ timeout: 30_000 });
  await expect(tried.locator('text.late-word').first()).toHaveText(/^\d days? late$/);
  // The later marks have their number, and no two run into each other.
  await expect(tried.locator('text.late-word')).toHaveText([/^\d days? late$/, ...Array.from({ length: (await tried.locator('.late-mark').count()) - 1 }, () => /^\d$/)]);
  // What is said to be late is worth less; until then the curve is no loss.
  await expect(tried.locator('.headline')).toBeVisible();
  await expect(tried.getByText(/Six days late/)).toBeVisible();
  await expect(tried.getByText(/100 seasons: half of them/)).toBeVisible({ timeout: 60_000 });
  const out = tried.getByRole('slider', { name: 'The frame comes out on' });
  const safe = (await out.getAttribute('aria-valuetext')) ?? '';
  await out.press('Shift+ArrowRight');
  await expect(out).not.toHaveAttribute('aria-valuetext', safe);
  await out.press('Shift+ArrowLeft');
  await expect(out).toHaveAttribute('aria-valuetext', safe);
  await out.press('ArrowLeft');
  const day = ((await out.getAttribute('aria-valuetext')) ?? '').split(':')[0] ?? '';
  await tried.getByRole('button', { name: 'Put this day into the plan' }).click();
  await expect(page.locator('.stage').getByRole('slider', { name: 'drone frame out' })).toHaveAttribute('aria-valuetext', day);
  expect(await accessFaults(page)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wide).toBe(0);
});

test('without mites there is no curve of them, and the mites can be set', async ({ page }) => {
  test.slow();
  await open(page);
  const tried = page.getByRole('region', { name: 'Tried over and over' });
  await tried.getByRole('heading', { name: 'When must the drone frame come out?' }).click();
  await expect(tried.getByText('There are no mites in this plan: set how many under Start.')).toBeVisible({ timeout: 30_000 });
  await expect(tried.getByRole('slider', { name: 'The frame comes out on' })).toHaveCount(0);
  await expect(tried.locator('.curve svg')).toHaveCount(0);
  await tried.getByRole('button', { name: 'Set them' }).click();
  await expect(page.locator('#change')).toBeVisible();
});

test('pictures of trials for looking at', async ({ page }, info) => {
  test.slow();
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await page.goto('./');
    await expect(story(page)).toContainText('day ');
    if (colorScheme === 'light') {
      await changing(page);
      await page.getByRole('combobox', { name: 'Open an example' }).selectOption('drone frame late');
      await expect(page.locator('.stage').getByRole('slider', { name: 'drone frame out' })).toHaveCount(1);
      await page.getByRole('button', { name: 'Close' }).click();
    }
    for (const heading of [/When must/, /In how many/]) await page.getByRole('heading', { name: heading }).click();
    await expect(page.getByText(/100 seasons: half of them/)).toBeVisible({ timeout: 60_000 });
    await expect(page.getByText(/better in \d+ of 200/)).toBeVisible({ timeout: 60_000 });
    await page.screenshot({ path: `gallery/${info.project.name}-trials-${colorScheme}.png`, fullPage: true });
    if (isPhone(page)) break;
  }
});
