import { expect, isPhone, open, test } from './page';

test('Compare leads to the verdict, and the top of the page says it', async ({ page }) => {
  test.slow();
  await open(page);
  await page.getByRole('button', { name: 'Draw what you found' }).filter({ visible: true }).click();
  await page.getByRole('textbox', { name: 'Frames of bees, lower deep', exact: true }).fill('4');
  // One box alone gives no figure of the whole hive: it is said beside the button, with a way out.
  const held = page.locator('.held');
  await expect(held).toHaveText(/^The upper deep was not looked at: frames of bees not used\. Count it as empty Look at it$/);
  await page.getByRole('button', { name: 'Compare' }).click();
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  const heading = judged.getByRole('heading', { level: 2 });
  await expect(heading).toBeFocused();
  await expect(heading).toBeInViewport();
  await expect(judged.getByText('11 June The upper deep was not looked at: frames of bees not used.')).toBeVisible();
  await expect(judged.getByText('So far nothing is written down that could be judged.')).toBeVisible();
  await page.goBack();
  await page.getByRole('button', { name: 'Count it as empty' }).click();
  await expect(held).toHaveCount(0);
  await expect(page.getByText('not written down while another box is not looked at')).toHaveCount(0);
  await page.getByRole('button', { name: 'Compare' }).click();
  const headline = judged.getByRole('heading', { level: 3 });
  await expect(headline).toHaveText(/^(In step|Behind|Far behind|Ahead)/, { timeout: 60_000 });
  await expect(headline).toBeInViewport();
  await expect(judged.locator('.unused')).toHaveCount(0);
  const top = page.getByRole('link', { name: /^What was found: .+, after one visit, on 11 June$/ });
  await expect(top).toBeVisible();
  await page.evaluate(() => scrollTo(0, 0));
  await top.click();
  await expect(heading).toBeFocused();
  if (isPhone(page)) await expect(headline).toBeInViewport();
});

test('the top of the page says the verdict on the demo visits too', async ({ page }) => {
  test.slow();
  await open(page);
  await page.getByRole('button', { name: 'Take the demo hive’s six visits' }).click();
  await expect(page.getByRole('link', { name: /^What was found: (Behind|Far behind), by about \d+ days, after 6 visits, on 18 June$/ })).toBeVisible({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Take the visits away' }).click();
  await expect(page.getByRole('link', { name: /^What was found/ })).toHaveCount(0);
});
