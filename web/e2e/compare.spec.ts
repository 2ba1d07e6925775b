import { changing, expect, isPhone, open, story, test } from './page';

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
  await expect(judged.getByText('The drawing is unfinished: no verdict yet.')).toBeVisible();
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
  // They have no drawing: the sheet does not say that there were none.
  await page.goto('./#/visit');
  await expect(page.getByText('The verdict is on 6 visits that are not drawn here.')).toBeVisible();
  await page.goBack();
  await page.getByRole('button', { name: 'Take the visits away' }).click();
  await expect(page.getByRole('link', { name: /^What was found/ })).toHaveCount(0);
});

test('brood that was said of one box alone names the other, is held against its own box, and counts at one tap', async ({ page }) => {
  test.slow();
  await open(page);
  await page.getByRole('button', { name: 'Draw what you found' }).filter({ visible: true }).click();
  await page.getByRole('textbox', { name: 'Frames of brood, as full frames, lower deep', exact: true }).fill('2');
  await page.getByRole('group', { name: 'Eggs seen', exact: true }).getByRole('button', { name: 'no' }).click();
  const said = 'The upper deep was not looked at: frames of brood not used.';
  await expect(page.locator('.held')).toContainText([said]);
  await expect(page.locator('.held').getByRole('button')).toHaveText(['Upper deep: none', 'No brood elsewhere']);
  await page.getByRole('button', { name: 'Compare' }).click();
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  await expect(judged.getByText(/cannot be told yet: what was found in one box is not used/)).toBeVisible({ timeout: 60_000 });
  await expect(judged.getByText(/nothing was seen of its bees/)).toHaveCount(0);
  const unused = judged.locator('.unused li');
  await expect(unused).toHaveText([`11 June ${said} Upper deep: none`, /^Box against box, frames of brood in the lower deep: 2 found, \S+ expected/]);
  await unused.getByRole('button', { name: 'Upper deep: none' }).click();
  await expect(unused).toHaveCount(0);
  await expect(judged.getByRole('heading', { level: 3 })).toHaveText(/^(In step|Behind|Far behind|Ahead|Perhaps)/, { timeout: 60_000 });
});

test('a hive is named where it is changed, and a new one is like the open one unless another is chosen', async ({ page }) => {
  await open(page);
  await changing(page);
  await page.getByRole('textbox', { name: 'This hive is called' }).fill('Brook side');
  await page.getByRole('textbox', { name: 'This hive is called' }).press('Tab');
  await page.goto('./#/yard');
  await expect(page.getByRole('button', { name: 'Open Brook side' })).toBeVisible();
  await page.getByRole('button', { name: 'Add it' }).click();
  await expect(page.getByRole('button', { name: /^Open / })).toHaveText(['Brook side', 'Brook side (2)']);
});

test('a stepper starts from a plain weight, in pounds too, and syrup says since when it counts', async ({ page }) => {
  await open(page);
  await page.getByRole('button', { name: 'lb, °F' }).click();
  await page.goto('./#/visit');
  await page.getByRole('button', { name: 'Weight of the hive: more' }).click();
  await expect(page.getByRole('textbox', { name: 'Weight of the hive' })).toHaveValue('55');
  await page.getByRole('textbox', { name: 'Weight of the hive' }).fill('1');
  await expect(page.getByText('a number from 3 to 660')).toBeVisible();
  await expect(page.getByText('quart jars, since 30 April')).toBeVisible();
  await expect(page.getByText(/^\d½?, spread over \d+ frames$/)).toBeVisible();
});

test('letters follow the size that the reader has chosen', async ({ page }) => {
  await open(page);
  const size = () => story(page).evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
  const before = await size();
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  expect(await size()).toBeCloseTo(2 * before, 3);
});

test('the evidence has ways to its parts', async ({ page }) => {
  await page.goto('./#/evidence');
  await page.getByRole('navigation', { name: 'On this page' }).getByRole('button', { name: 'Parameters' }).click();
  await expect(page.getByRole('heading', { name: /^Parameters/ })).toBeInViewport();
  await expect(page.getByRole('heading', { name: /^Parameters/ })).toBeFocused();
});

test('what can be changed in a lesson, and its answer, are on the first screen of a desktop', async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 720 });
  await page.goto('./#/lessons/the-dip');
  const points = page.getByRole('slider');
  await expect(points.first()).toBeVisible();
  await points.first().focus();
  for (let at = await points.count(); at > 0; at -= 1) {
    await page.keyboard.press('PageDown');
    await page.keyboard.press('ArrowRight');
  }
  await page.getByRole('button', { name: 'See what the model has' }).click();
  await expect(page.getByText('A worker takes three weeks from egg to bee').filter({ visible: true })).toHaveCount(1);
  await expect(page.locator('svg text').filter({ hasText: /below the model$/ })).toHaveCount(1);
  await page.evaluate(() => scrollTo(0, 0));
  const change = page.getByRole('button', { name: /^With / });
  await change.click();
  await expect(page.getByText(/it is then .+ in place of/)).toBeInViewport({ ratio: 1 });
  expect(await page.evaluate(() => scrollY)).toBe(0);
  await page.screenshot({ path: 'test-results/gallery/lesson-changed.png' });
});

test('a drawing that is not finished gets no verdict, and is told what is missing', async ({ page }) => {
  await open(page);
  await page.goto('./#/visit');
  const words = page.getByRole('group', { name: 'What to draw' });
  await words.getByRole('button', { name: 'Brood', exact: true }).click();
  for (let more = 0; more < 4; more += 1) await page.getByRole('button', { name: 'More brood' }).click();
  await page.getByRole('group', { name: 'Queen cells' }).getByRole('button', { name: 'none' }).click();
  await page.getByRole('button', { name: 'Compare' }).click();
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  await expect(judged.getByText('The drawing is unfinished: no verdict yet.')).toBeVisible();
  await expect(judged.getByRole('listitem').filter({ hasText: 'were not looked at' })).toContainText(/11 June .*not used\./);
  await page.waitForTimeout(2500);
  await expect(judged.getByRole('heading', { level: 3 })).toHaveCount(0);
  await judged.getByRole('button', { name: 'Go on drawing' }).click();
  await expect(words).toBeVisible();
});
