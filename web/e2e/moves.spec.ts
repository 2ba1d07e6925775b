import type { Page } from '@playwright/test';
import { accessFaults, changing, expect, isPhone, open, reload, story, test, told } from './page';

const pin = (page: Page, name: RegExp | string) => page.locator('.stage').getByRole('slider', { name });
const moves = (page: Page) => page.getByRole('group', { name: 'Moves' });

async function add(page: Page, words: string): Promise<void> {
  await moves(page).getByRole('combobox', { name: 'Something else to do' }).selectOption({ label: words });
  await moves(page).getByRole('button', { name: /^Add on/ }).click();
}

test('a pin is dragged to another date and the season follows', async ({ page }) => {
  await open(page);
  const feed = pin(page, '1:1 feed off');
  await expect(feed).toHaveAttribute('aria-valuetext', 'Sun 17 June 2012');
  const before = await told(page);
  await feed.scrollIntoViewIfNeeded();
  const place = await feed.boundingBox();
  if (!place) throw new Error('the pin has no place');
  const [x, y] = [place.x + place.width / 2, place.y + place.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 100, y, { steps: 8 });
  // While it is held, what it does is written beside it.
  await expect(page.locator('.effect')).toContainText('1:1 feed off, ');
  await page.mouse.up();
  await expect(page.locator('.effect')).toHaveCount(0);
  await expect.poll(async () => await feed.getAttribute('aria-valuetext')).not.toContain('17 June');
  await expect.poll(() => told(page)).not.toBe(before);
  // One drag is undone at once.
  await page.keyboard.press('Control+z');
  await expect(feed).toHaveAttribute('aria-valuetext', 'Sun 17 June 2012');
  await expect.poll(() => told(page)).toBe(before);
});

test('a pin goes by keyboard, stops where it must, and is taken out and brought back', async ({ page }) => {
  await open(page);
  const feed = pin(page, '1:1 feed off');
  await feed.focus();
  await page.keyboard.press('ArrowLeft');
  await expect(feed).toHaveAttribute('aria-valuetext', 'Sat 16 June 2012');
  await page.keyboard.press('Shift+ArrowLeft');
  await expect(feed).toHaveAttribute('aria-valuetext', 'Sat 9 June 2012');
  const box = pin(page, 'deep box on');
  await box.focus();
  for (let week = 0; week < 8; week += 1) await page.keyboard.press('Shift+ArrowLeft');
  await expect(box).toHaveAttribute('aria-valuetext', 'Mon 30 April 2012');
  await expect(page.locator('.effect')).toContainText('no earlier: the season');
  await page.keyboard.press('Delete');
  await expect(box).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(box).toHaveCount(1);
});

test('a drone frame is put in, taken out, compared with the season without it, and kept over a reload', async ({ page }) => {
  await open(page);
  await changing(page);
  await add(page, 'Give a frame');
  await expect(pin(page, 'drone frame in')).toHaveCount(1);
  await moves(page).getByLabel('On', { exact: true }).fill('2012-05-17');
  await expect(pin(page, 'drone frame in')).toHaveAttribute('aria-valuetext', 'Thu 17 May 2012');
  await add(page, 'Take the drone frame out');
  await expect(moves(page).getByText(/Drones leave their cells/)).toBeVisible();
  await expect(moves(page).getByText(/11 June: .*drone frame/)).toBeVisible();
  await moves(page).getByRole('button', { name: 'Compare with the season without it' }).click();
  await expect(page.getByRole('columnheader', { name: 'without “drone frame out”' })).toBeVisible();
  await reload(page);
  await expect(story(page)).toContainText('day 43.');
  await expect(pin(page, 'drone frame out')).toHaveCount(1);
  await expect(page.getByRole('columnheader', { name: 'without “drone frame out”' })).toBeVisible();
});

test('a move that cannot be done is refused with its reason, and nothing else is lost', async ({ page }) => {
  await open(page);
  await changing(page);
  await add(page, 'Take the drone frame out');
  await expect(moves(page).getByText(/Refused: 11 June: .*drone frame/)).toBeVisible();
  await expect(pin(page, /drone frame out, refused/)).toHaveCount(1);
  await expect(pin(page, 'deep box on')).toHaveCount(1);
  await moves(page).getByRole('button', { name: 'Take it out of the plan' }).click();
  await expect(moves(page).getByText(/Refused/)).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(moves(page).getByText(/Refused/)).toBeVisible();
});

test('a move waits for a condition, or is done again and again', async ({ page }) => {
  await open(page);
  await changing(page);
  await add(page, 'Give a box on top');
  await moves(page).getByRole('combobox', { name: 'When' }).selectOption({ label: 'so many frames are drawn' });
  await expect(moves(page).getByRole('button', { name: /from 11 June, when 8 frames are drawn/ })).toBeVisible();
  await add(page, 'Put a pollen patty on');
  await moves(page).getByRole('checkbox', { name: 'again and again' }).check();
  await expect(moves(page).getByRole('button', { name: /pollen patty on: every 21 days from 11 June/ })).toBeVisible();
  await expect(moves(page).getByText(/2 July: .*patty/)).toBeVisible();
});

test('a treatment shows its caution, and that the label is the law', async ({ page }) => {
  await open(page);
  await changing(page);
  await add(page, 'Treat');
  await expect(moves(page).getByText(/Follow the label: it is the law/)).toBeVisible();
  await expect(moves(page).getByText(/Not while honey supers are on/)).toBeVisible();
  await moves(page).getByRole('combobox', { name: 'With' }).selectOption({ label: 'thymol' });
  await expect(moves(page).locator('.caution')).toContainText('Thymol vapour harms eyes');
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await accessFaults(page)).toEqual([]);
  }
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wide).toBe(0);
});

test('pictures of moves for looking at', async ({ page }, info) => {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await page.goto('./');
    await expect(story(page)).toContainText('day 43');
    if (!(await moves(page).isVisible())) await changing(page);
    if (colorScheme === 'light') {
      await add(page, 'Take the drone frame out');
      await add(page, 'Treat');
    }
    await moves(page).evaluate((element) => element.scrollIntoView({ block: 'start' }));
    if (!isPhone(page)) await page.evaluate(() => scrollTo(0, 0));
    await page.screenshot({ path: `gallery/${info.project.name}-moves-${colorScheme}.png` });
  }
});
