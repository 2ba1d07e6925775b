import { changing, compared, date, expect, open, story, test } from './page';

test('after one visit the page works without a network', async ({ page, context }) => {
  await open(page);
  await expect(page.getByText('it opens without a network')).toBeVisible({ timeout: 20_000 });
  await context.setOffline(true);
  await page.reload();
  await expect(story(page)).toContainText('day 43');
  await changing(page);
  const [before] = await compared(page, 'bees');
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await expect.poll(async () => (await compared(page, 'bees'))[0]).not.toBe(before);
  // An example with another weather record.
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption({ label: 'state college swarm' });
  await expect(date(page)).not.toHaveAttribute('aria-valuetext', /2012/);
  await expect(page.locator('.problem, .fatal')).toHaveCount(0);
});
