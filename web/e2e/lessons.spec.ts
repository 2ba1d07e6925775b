import type { Locator, Page } from '@playwright/test';
import { lessons as german } from '../src/text/de/lessons';
import { lessons } from '../src/text/en/lessons';
import type { Weighed } from '../src/units';
import { accessFaults, expect, open, reload, test } from './page';

const NAMES = Object.keys(lessons.words) as (keyof typeof lessons.words)[];

/** A text with weights in it, as a page with metric units says it. */
const metric = (words: Weighed) => (typeof words === 'string' ? words : words((kilograms) => `${Number(kilograms.toFixed(1))} kg`));

const plate = (page: Page): Locator => page.locator('.plate');
const see = (page: Page) => page.getByRole('button', { name: lessons.see });
const point = (page: Page, date: string) => page.getByRole('slider', { name: date, exact: true });

async function openLesson(page: Page, name: string): Promise<void> {
  await page.goto(`./#/lessons/${name}`);
  await expect(plate(page).getByRole('slider').first()).toBeVisible();
}

/** Draws with the mouse from the left of the chart to its right end, at two heights, as shares of the chart. */
async function draw(page: Page, from: number, to: number): Promise<void> {
  const box = await plate(page).boundingBox();
  if (!box) throw new Error('The chart has no place on the page.');
  await page.mouse.move(box.x + box.width * 0.2, box.y + box.height * from);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.5, box.y + (box.height * (from + to)) / 2, { steps: 8 });
  await page.mouse.move(box.x + box.width - 4, box.y + box.height * to, { steps: 8 });
  await page.mouse.up();
}

const sideways = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

test('the eight lessons are gone through one after the other: drawn, seen, changed', async ({ page }, { project }) => {
  await page.goto('./#/lessons');
  expect(await sideways(page)).toBeLessThanOrEqual(0);
  await page.getByRole('link', { name: lessons.words['the-dip'].title }).click();
  for (const [i, name] of NAMES.entries()) {
    const { title, change } = lessons.words[name];
    await expect(page.getByRole('heading', { level: 1 })).toHaveText(title);
    await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
    await expect(page.getByText(lessons.count(i + 1, NAMES.length), { exact: true })).toBeVisible();
    await expect(see(page)).toBeDisabled();
    // The teacher's note gives the answer away: it is shut.
    await expect(page.getByText(lessons.words[name].note).filter({ visible: true })).toHaveCount(0);
    const sizes = await plate(page)
      .locator('text')
      .evaluateAll((texts) => texts.map((one) => (one as SVGTextElement).getBoundingClientRect().height));
    expect(sizes.length).toBeGreaterThan(5);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
    await draw(page, 0.6, 0.3);
    await see(page).click();
    const said = page.locator('.said').first();
    await expect(said).toBeFocused();
    await expect(said).toContainText(/^\s*On \d+ \w+ you drew [\d,.]+ .* and the model has [\d,.]+ /);
    await expect(said).toContainText('away on average');
    await expect(page.getByText('under the recorded weather of 201')).toBeVisible();
    await page.getByRole('button', { name: lessons.withChange(metric(change)) }).click();
    await expect(page.getByText(/^\s*In the model, under (this weather|these conditions), /)).toBeVisible();
    for (const line of ['model', 'changed', 'yours']) await expect(plate(page).locator(`path.${line}`).first()).toBeVisible();
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    await page.screenshot({ path: `gallery/lesson-${name}-${project.name}.png` });
    const next = page.getByRole('link', { name: /^Next: / });
    if (i + 1 < NAMES.length) await next.click();
    else await expect(next).toHaveCount(0);
  }
});

test('what is said is what was drawn, and drawing again begins anew', async ({ page }) => {
  await openLesson(page, 'the-dip');
  await draw(page, 0.9, 0.9);
  const drawn = (await point(page, '21 May').getAttribute('aria-valuetext'))?.split(' ')[0] ?? '';
  await see(page).click();
  await expect(page.getByText(`On 21 May you drew ${drawn} bees`)).toBeVisible();
  await page.getByText(lessons.table).click();
  const row = page.getByRole('row').filter({ has: page.getByRole('rowheader', { name: '21 May', exact: true }) });
  await expect(row.getByRole('cell').first()).toHaveText(drawn);
  await page.getByRole('button', { name: lessons.again }).click();
  await expect(see(page)).toBeDisabled();
  await expect(point(page, '7 May')).toBeFocused();
  await expect(point(page, '21 May')).toHaveAttribute('aria-valuetext', lessons.unset);
});

test('with the keyboard alone a line is drawn, and seen', async ({ page }) => {
  await openLesson(page, 'the-dip');
  await page.getByRole('link', { name: lessons.all }).focus();
  await page.keyboard.press('Tab');
  await expect(point(page, '7 May')).toBeFocused();
  // One stop of the tab key, however many points there are.
  await page.keyboard.press('ArrowDown');
  await expect(point(page, '7 May')).toHaveAttribute('aria-valuetext', '9,500 bees');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await expect(point(page, '14 May')).toHaveAttribute('aria-valuetext', '9,500 bees');
  for (let i = 0; i < 8; i += 1) await page.keyboard.press('ArrowRight');
  await expect(point(page, '9 July')).toBeFocused();
  await page.keyboard.press('PageUp');
  await expect(point(page, '9 July')).toHaveAttribute('aria-valuetext', '12,000 bees');
  // Those between lie on the way.
  await expect(point(page, '11 June')).toHaveAttribute('aria-valuetext', '10,800 bees');
  await page.keyboard.press('Tab');
  await expect(see(page)).toBeFocused();
  const outline = await see(page).evaluate((button) => getComputedStyle(button).outlineWidth);
  expect(outline).toBe('3px');
  await page.keyboard.press('Enter');
  await expect(page.getByText('On 21 May you drew')).toBeVisible();
});

test.describe('with a touch screen', () => {
  test.use({ hasTouch: true });

  test('a finger draws the line, and does not scroll the page', async ({ page, context }) => {
    await openLesson(page, 'rain-and-feed');
    const box = await plate(page).boundingBox();
    if (!box) throw new Error('The chart has no place on the page.');
    const scrolled = await page.evaluate(() => scrollY);
    const client = await context.newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number, y: number) =>
      client.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x: box.x + box.width * x, y: box.y + box.height * y }] });
    await touch('touchStart', 0.2, 0.8);
    for (const x of [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.99]) {
      await touch('touchMove', x, 1.1 - x);
      // As slowly as a finger: the browser takes a tap that follows a swipe of no time for the end of the swipe.
      await page.waitForTimeout(60);
    }
    await touch('touchEnd', 0, 0);
    await expect(see(page)).toBeEnabled();
    expect(await page.evaluate(() => scrollY)).toBe(scrolled);
    await see(page).tap();
    await expect(page.getByText('On 21 May you drew')).toBeVisible();
  });

  test('without a drag, taps set the points', async ({ page }) => {
    await openLesson(page, 'rain-and-feed');
    const box = await plate(page).boundingBox();
    if (!box) throw new Error('The chart has no place on the page.');
    await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
    await expect(see(page)).toBeDisabled();
    await page.touchscreen.tap(box.x + box.width - 4, box.y + box.height / 3);
    await expect(see(page)).toBeEnabled();
  });
});

test('a package that starves does so in the model, and the page says no more than that', async ({ page }) => {
  await openLesson(page, 'rain-and-feed');
  await draw(page, 0.6, 0.5);
  await see(page).click();
  await page.getByRole('button', { name: lessons.withChange(metric(lessons.words['rain-and-feed'].change)) }).click();
  await expect(page.getByText('In the model, under these conditions, no bee is left on 21 May')).toBeVisible();
  await expect(page.getByText('A real colony may find a dry hour')).toBeVisible();
});

test('whether she is in step is answered in words, before the change and after it', async ({ page }) => {
  await openLesson(page, 'in-step');
  await draw(page, 0.8, 0.4);
  await see(page).click();
  await expect(page.locator('.said').first()).toContainText(lessons.stands.same);
  await page.getByRole('button', { name: /^With a package that came light: 1\.2 kg of bees in place of 1\.4 kg/ }).click();
  await expect(page.locator('.then .said')).toContainText(lessons.stands.fewer);
});

test('what was drawn is still there after another lesson, and after a reload', async ({ page }) => {
  await openLesson(page, 'the-dip');
  await draw(page, 0.8, 0.4);
  const drawn = await point(page, '28 May').getAttribute('aria-valuetext');
  await openLesson(page, 'in-step');
  await expect(see(page)).toBeDisabled();
  await openLesson(page, 'the-dip');
  await expect(point(page, '28 May')).toHaveAttribute('aria-valuetext', drawn ?? '');
  await reload(page);
  await expect(point(page, '28 May')).toHaveAttribute('aria-valuetext', drawn ?? '');
  await expect(see(page)).toBeEnabled();
});

test('each lesson prints a handout without the answer and a teacher’s page with it, one page each', async ({ page }) => {
  await page.addInitScript(() => {
    window.print = () => {};
  });
  const pages = async (format: string) => (await page.pdf({ format })).toString('latin1').match(/\/Type\s*\/Page\b/g)?.length;
  const shown = (text: string) => page.locator('.paper').getByText(text).filter({ visible: true });
  for (const name of NAMES) {
    await openLesson(page, name);
    await expect(page.getByRole('button', { name: lessons.print })).toBeVisible();
    await page.getByRole('button', { name: lessons.print }).click();
    for (const format of ['A4', 'Letter']) expect([name, await pages(format)]).toEqual([name, 1]);
    await page.emulateMedia({ media: 'print' });
    await expect(shown(lessons.paper.why)).toBeVisible();
    await expect(shown(lessons.words[name].note)).toHaveCount(0);
    await expect(page.locator('.paper path')).toHaveCount(0);
    await page.emulateMedia({ media: null });
    await page.getByRole('button', { name: lessons.printNote }).click();
    for (const format of ['A4', 'Letter']) expect([name, await pages(format)]).toEqual([name, 1]);
    await page.emulateMedia({ media: 'print' });
    await expect(shown(lessons.words[name].note)).toBeVisible();
    await expect(page.locator('.paper path')).toHaveCount(2);
    await page.emulateMedia({ media: null });
  }
});

test('the lessons have no access faults, light or dark, before and after', async ({ page }) => {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await page.goto('./#/lessons');
    await expect(page.getByRole('heading', { level: 1, name: 'Lessons' })).toBeVisible();
    expect(await accessFaults(page)).toEqual([]);
    await openLesson(page, 'comb-is-the-brake');
    if (await page.getByRole('button', { name: lessons.again }).isVisible()) await page.getByRole('button', { name: lessons.again }).click();
    expect(await accessFaults(page)).toEqual([]);
    await draw(page, 0.7, 0.4);
    await see(page).click();
    await page.getByRole('button', { name: /^With / }).click();
    await page.getByText(lessons.table).click();
    await page.getByText(lessons.noteWarning).click();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole('button', { name: lessons.again }).click();
  }
});

test('the lessons work without a network', async ({ page, context }) => {
  await open(page);
  await expect(page.getByText('it opens without a network')).toBeVisible({ timeout: 20_000 });
  await context.setOffline(true);
  await reload(page);
  await openLesson(page, 'winter-bees');
  await draw(page, 0.4, 0.8);
  await see(page).click();
  await expect(page.getByText('On 14 March you drew')).toBeVisible();
});

test('read from the last row, a lesson has the chart and its words on one screen', async ({ page }, { project }) => {
  for (const [width, height] of [
    [1280, 800],
    [1920, 1080],
  ] as const) {
    await page.setViewportSize({ width, height });
    await openLesson(page, 'late-then-fast');
    const large = page.getByRole('button', { name: 'Large type' });
    if ((await large.getAttribute('aria-pressed')) === 'false') await large.click();
    await expect(large).toHaveAttribute('aria-pressed', 'true');
    const size = (of: Locator) => of.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
    expect(await size(page.locator('.story'))).toBeGreaterThanOrEqual(34);
    expect(await size(see(page))).toBeGreaterThanOrEqual(20);
    expect(await size(plate(page).locator('text').first())).toBeGreaterThanOrEqual(16);
    const bottom = await plate(page).evaluate((one) => one.getBoundingClientRect().bottom);
    expect(bottom).toBeLessThanOrEqual(height);
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    await page.screenshot({ path: `gallery/lesson-projector-${width}-${project.name}.png` });
  }
});

test.describe('of a browser that speaks German', () => {
  test.use({ locale: 'de-DE', viewport: { width: 320, height: 640 } });

  test('a lesson that was seen is no wider than the narrowest phone', async ({ page }) => {
    await openLesson(page, 'winter-bees');
    await plate(page).scrollIntoViewIfNeeded();
    await draw(page, 0.6, 0.5);
    await page.getByRole('button', { name: german.see }).click();
    await page.getByRole('button', { name: german.withChange(metric(german.words['winter-bees'].change)) }).click();
    await page.getByText(german.table).click();
    await expect(page.getByRole('columnheader', { name: german.changed })).toBeVisible();
    expect(await sideways(page)).toBeLessThanOrEqual(0);
  });
});
