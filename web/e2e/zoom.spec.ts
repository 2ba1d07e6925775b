import type { Page } from '@playwright/test';
import { accessFaults, date, expect, isPhone, open, test } from './page';

const count = (page: Page) => page.locator('.season').getByText(/^\d+ days$/);
const shown = async (page: Page): Promise<number> => Number.parseInt((await count(page).textContent()) ?? '', 10);
const button = (page: Page, name: string) => page.locator('.season').getByRole('button', { name, exact: true });

test('the strip shows fewer or more days by its buttons, and as many as usual again', async ({ page }) => {
  await open(page);
  const usual = isPhone(page) ? 84 : 112;
  await expect(count(page)).toHaveText(`${usual} days`);
  await button(page, 'zoom in').click();
  await expect(count(page)).toHaveText(`${Math.round(usual / 1.5)} days`);
  await expect(date(page)).toHaveAttribute('aria-valuenow', '42');
  for (let i = 0; i < 9 && (await button(page, 'zoom in').isEnabled()); i += 1) await button(page, 'zoom in').click();
  await expect(count(page)).toHaveText('14 days');
  // On a phone the buttons stand below the rows, the date above them.
  await date(page).scrollIntoViewIfNeeded();
  await expect(date(page)).toBeInViewport();
  expect(await accessFaults(page)).toEqual([]);
  await button(page, 'whole season').click();
  await expect(count(page)).toHaveText('185 days');
  await expect(button(page, 'zoom out')).toBeDisabled();
  await button(page, 'weeks').click();
  await expect(count(page)).toHaveText(`${usual} days`);
});

test('the strip is zoomed by keys, and the day goes on by arrows', async ({ page }) => {
  await open(page);
  const before = await shown(page);
  await date(page).press('+');
  await expect.poll(() => shown(page)).toBeLessThan(before);
  await date(page).press('ArrowRight');
  await expect(date(page)).toHaveAttribute('aria-valuenow', '43');
  await date(page).press('-');
  await date(page).press('-');
  await expect.poll(() => shown(page)).toBeGreaterThan(before);
});

test('Ctrl and the wheel zoom around the mouse, the wheel alone scrolls the page', async ({ page }) => {
  await open(page);
  const before = await shown(page);
  const stage = page.locator('.stage');
  await stage.evaluate((one) => one.scrollIntoView({ block: 'center' }));
  await stage.hover();
  await page.keyboard.down('Control');
  await page.mouse.wheel(0, -200);
  await page.keyboard.up('Control');
  await expect.poll(() => shown(page)).toBeLessThan(before);
  await expect(date(page)).toHaveAttribute('aria-valuenow', '42');
  const now = await shown(page);
  const scrolled = await page.evaluate(() => scrollY);
  await page.mouse.wheel(0, 200);
  await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(scrolled);
  expect(await shown(page)).toBe(now);
});

test.describe('with a touch screen', () => {
  test.use({ hasTouch: true });

  test('two fingers spread show fewer days, and choose no other day', async ({ page }) => {
    await open(page);
    const before = await shown(page);
    const stage = page.locator('.stage');
    await stage.evaluate((one) => one.scrollIntoView({ block: 'start' }));
    const box = await stage.boundingBox();
    if (!box) throw new Error('the strip has no place');
    const y = box.y + 150;
    const middle = box.x + box.width / 2;
    const fingers = (apart: number) => [
      { x: middle - apart / 2, y, id: 1 },
      { x: middle + apart / 2, y, id: 2 },
    ];
    const touch = await page.context().newCDPSession(page);
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number; id: number }[]) => touch.send('Input.dispatchTouchEvent', { type, touchPoints });
    await send('touchStart', fingers(80).slice(0, 1));
    await send('touchStart', fingers(80));
    for (const apart of [100, 130, 160]) await send('touchMove', fingers(apart));
    await send('touchEnd', []);
    await expect.poll(() => shown(page)).toBeLessThan(before * 0.6);
    await expect(date(page)).toHaveAttribute('aria-valuenow', '42');
  });
});
