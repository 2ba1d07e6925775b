import type { Page } from '@playwright/test';
import { accessFaults, expect, isPhone, open, reload, story, test } from './page';

const VIEWS = ['#/', '#/lessons', '#/lessons/the-dip', '#/evidence', '#/yard', '#/visit'];

const header = (page: Page) => page.locator('header').first();
const sideways = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

async function settled(page: Page, view: string): Promise<void> {
  await page.goto(`./${view}`);
  await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
  if (view === '#/') await expect(story(page)).toContainText('day 43');
  if (view === '#/lessons/the-dip') await expect(page.getByRole('slider').first()).toBeVisible();
}

test('on a phone the head of the page is two lines high, with everything in it', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await open(page);
  // Each line as high as a thumb needs.
  expect((await header(page).boundingBox())?.height).toBeLessThanOrEqual(2 * 48);
  for (const name of ['Evidence', 'Lessons']) await expect(header(page).getByRole('link', { name })).toBeVisible();
  await expect(header(page).getByTitle('All hives')).toBeVisible();
  for (const name of ['kg, °C', 'lb, °F']) await expect(header(page).getByRole('button', { name })).toBeVisible();
});

/** 1280 px at 400 % and at 200 %: what WCAG 2.2 asks of reflow (1.4.10) and of larger text (1.4.4). */
for (const [width, height, what] of [
  [320, 640, '320 px, or 400 % of 1280'],
  [640, 400, '200 % of 1280'],
] as const) {
  test(`nothing has to be scrolled sideways at ${what}`, async ({ page }) => {
    await page.setViewportSize({ width, height });
    for (const view of VIEWS) {
      await settled(page, view);
      expect([view, await sideways(page)]).toEqual([view, 0]);
    }
  });
}

for (const locale of ['en-GB', 'de-DE']) {
  test.describe(`in ${locale}`, () => {
    test.use({ locale });

    test('at 320 px no view is wider than the window, with everything open that opens', async ({ page }) => {
      test.slow();
      await page.setViewportSize({ width: 320, height: 640 });
      await page.goto('./#/lessons');
      const lessons = page.locator('main li a[href^="#/lessons/"]');
      await expect(lessons.first()).toBeVisible();
      const all = await lessons.evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''));
      expect(all).toHaveLength(8);
      for (const view of [...VIEWS.filter((one) => !one.startsWith('#/lessons/')), ...all]) {
        await page.goto(`./${view}`);
        await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
        if (view === '#/') {
          // What lies below the first screen comes after it, and the controls are opened too.
          await expect(page.locator('section.searched')).toBeAttached();
          await page.locator('.bar button').last().click();
          await expect(page.locator('#change input').first()).toBeVisible();
          // A plan without mites has no curve of them.
          await page.getByRole('textbox', { name: /^(Mites on 100 bees|Milben auf 100 Bienen)$/ }).fill('2');
        }
        // What is inside of what opens can open too, and comes when it does.
        const closed = page.locator('details:not([open])');
        await expect.poll(() => closed.evaluateAll((folded) => folded.map((one) => ((one as HTMLDetailsElement).open = true)).length), view).toBe(0);
        // What was tried over and over comes last.
        if (view === '#/') for (const tried of ['details .choose select', 'details .curve .tab']) await expect(page.locator(tried)).toBeVisible({ timeout: 60_000 });
        await expect.poll(() => sideways(page), view).toBeLessThanOrEqual(0);
      }
    });

    test('the head of the page has the name of the hive in full, on a desk and on a projector', async ({ page }) => {
      test.slow();
      for (const [width, height] of [
        [1280, 800],
        [1280, 720],
        [1024, 768],
      ] as const) {
        await page.setViewportSize({ width, height });
        await page.goto('./');
        await expect(page.locator('#change input').first()).toBeAttached();
        const name = header(page).locator('.yard a');
        for (const large of [false, true]) {
          const type = header(page).locator('button.type');
          if ((await type.getAttribute('aria-pressed')) !== String(large)) await type.click();
          for (const open of [false, true]) {
            const change = header(page).locator('.open-change');
            if ((await change.getAttribute('aria-expanded')) !== String(open)) await change.click();
            const cut = () =>
              name.evaluate((link) => {
                const [whole, room] = [link.getBoundingClientRect(), link.parentElement!.getBoundingClientRect()];
                return Math.max(whole.right - room.right, whole.bottom - room.bottom);
              });
            await expect.poll(cut, `${width} x ${height}, large ${large}, controls ${open}`).toBeLessThanOrEqual(1);
            expect(await sideways(page)).toBe(0);
          }
        }
      }
    });
  });
}

test('large type is a switch on a wide window, kept on this device, and its own on a very large one', async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await open(page);
  const large = page.getByRole('button', { name: 'Large type' });
  const size = () => story(page).evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
  await expect(large).toHaveAttribute('aria-pressed', 'false');
  const usual = await size();
  await large.click();
  await expect.poll(size).toBeGreaterThan(usual * 1.5);
  await reload(page);
  await expect(large).toHaveAttribute('aria-pressed', 'true');
  await expect.poll(size).toBeGreaterThan(usual * 1.5);
  await large.click();
  await expect.poll(size).toBe(usual);
  await page.setViewportSize({ width: 1920, height: 1080 });
  await expect(large).toHaveAttribute('aria-pressed', 'true');
  await expect.poll(size).toBeGreaterThan(usual * 1.5);
  await large.press('Enter');
  await expect.poll(size).toBe(usual);
});

test('from the last row the main page is read at both sizes of projector', async ({ page }, { project }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await open(page);
  await page.getByRole('button', { name: 'Large type' }).click();
  for (const [width, height] of [
    [1280, 800],
    [1920, 1080],
  ] as const) {
    await page.setViewportSize({ width, height });
    await expect(page.getByRole('button', { name: 'Large type' })).toHaveAttribute('aria-pressed', 'true');
    expect(await sideways(page)).toBe(0);
    // Nothing that is read is smaller than the smallest size of design for a projector.
    const small = await page.locator('main text, main p, main td, main th, main dt, main dd, main li, main summary, header a, header button').evaluateAll((all) =>
      all
        .filter((one) => one.getClientRects().length > 0 && (one.textContent ?? '').trim() !== '')
        .map((one) => ({ size: Number.parseFloat(getComputedStyle(one).fontSize) * (one instanceof SVGGraphicsElement ? Math.hypot(one.getScreenCTM()?.a ?? 1, one.getScreenCTM()?.b ?? 0) : 1), text: (one.textContent ?? '').trim().slice(0, 40) }))
        .filter(({ size }) => size < 16),
    );
    expect(small).toEqual([]);
    await page.screenshot({ path: `gallery/main-projector-${width}-${project.name}.png` });
    expect(await accessFaults(page)).toEqual([]);
  }
});

interface Stop {
  what: string;
  top: number;
  bottom: number;
  outlined: boolean;
  covered: boolean;
}

/** The element that has the focus, as somebody sees it. */
const stop = (page: Page): Promise<Stop | null> =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (!at || at === document.body) return null;
    const box = at.getBoundingClientRect();
    // A field of no look of its own is outlined by the label around it.
    const outlines = [at, at.closest('label')].filter((one) => one !== null).map((one) => getComputedStyle(one));
    // Something of it can be seen, and nothing lies over all of it (WCAG 2.2, 2.4.11).
    const spots = [0.1, 0.5, 0.9].flatMap((x) => [0.15, 0.5, 0.85].map((y) => [box.left + box.width * x, box.top + box.height * y] as const));
    const seen = spots.some(([x, y]) => {
      const top = document.elementFromPoint(x, y);
      return top !== null && (at.contains(top) || top.contains(at));
    });
    return {
      what: `${at.tagName.toLowerCase()} ${(at.getAttribute('aria-label') ?? at.textContent ?? '').trim().slice(0, 30)}`,
      top: box.top + scrollY,
      bottom: box.bottom + scrollY,
      outlined: outlines.some((style) => style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 2),
      covered: !seen,
    };
  });

/** Waits until nothing that comes late, a drawing or a table, moves what stands below it any more. */
async function atRest(page: Page): Promise<void> {
  const heights: number[] = [];
  await expect
    .poll(
      async () => {
        heights.push(await page.evaluate(() => document.documentElement.scrollHeight));
        return heights.length >= 8 && new Set(heights.slice(-8)).size === 1;
      },
      { intervals: [100], timeout: 15_000 },
    )
    .toBe(true);
}

/** Where the tab key stops, from the top of the page until it leaves it. */
async function walk(page: Page, most: number): Promise<Stop[]> {
  const stops: Stop[] = [];
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press('Tab');
    const at = await stop(page);
    if (!at) return stops;
    stops.push(at);
  }
  throw new Error(`After ${most} steps the tab key is still in the page, at ${stops.at(-1)?.what}.`);
}

function expectSeen(stops: readonly Stop[]): void {
  expect(stops.filter(({ outlined }) => !outlined).map(({ what }) => what)).toEqual([]);
  expect(stops.filter(({ covered }) => covered).map(({ what }) => what)).toEqual([]);
}

for (const colorScheme of ['light', 'dark'] as const) {
  test(`the tab key goes through the whole page and out of it, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await open(page);
    await expect(page.getByRole('button', { name: /demo hive/ })).toBeVisible();
    const stops = await walk(page, 200);
    expect(stops.length).toBeGreaterThan(20);
    expectSeen(stops);
    const place = (of: RegExp) => stops.findIndex(({ what }) => of.test(what));
    // Read from top to bottom: the head, the frames, the verdict, what next.
    const order = [/^a .*wet spring/, /Evidence/, /frame \d/, /demo hive/, /List what to do/].map(place);
    expect(order.every((at) => at >= 0)).toBe(true);
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    // And back again.
    await page.keyboard.press('Shift+Tab');
    expect(await stop(page)).not.toBeNull();
  });
}

test('the tab key goes through the other parts of the page', async ({ page }) => {
  for (const view of ['#/lessons', '#/lessons/the-dip', '#/yard', '#/visit']) {
    await settled(page, view);
    await reload(page);
    await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
    if (view === '#/lessons/the-dip') await expect(page.getByRole('slider').first()).toBeVisible();
    await atRest(page);
    const stops = await walk(page, 120);
    expect(stops.length).toBeGreaterThan(5);
    expectSeen(stops);
  }
});

test('the controls are opened, used and left with the keyboard', async ({ page }) => {
  await open(page);
  const opener = page.getByRole('button', { name: 'Change something' });
  await opener.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Change something' })).toBeFocused();
  const panel = page.getByRole('region', { name: 'Change something' });
  await page.keyboard.press('Tab');
  await expect(panel.locator(':focus')).toHaveCount(1);
  await page.keyboard.press('Escape');
  await expect(opener).toBeFocused();
  await expect(opener).toHaveAttribute('aria-expanded', 'false');
});

test('who asks for less motion sees nothing move', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await open(page);
  await page.getByRole('button', { name: /frame 4/ }).first().press('Enter');
  const moving = await page.evaluate(() => {
    const styles = [...document.querySelectorAll('*')].map((one) => getComputedStyle(one));
    const lasting = styles.filter((style) => [style.transitionDuration, style.animationDuration].some((times) => times.split(',').some((time) => Number.parseFloat(time) > 0)));
    return document.getAnimations().filter(({ playState }) => playState === 'running').length + lasting.length;
  });
  expect(moving).toBe(0);
  if (isPhone(page)) return;
  const smooth = await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior);
  expect(smooth).toBe('auto');
});
