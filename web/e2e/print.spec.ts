import { changing, date, expect, open, test } from './page';
import type { Page } from '@playwright/test';

const FORMATS = ['A4', 'Letter'] as const;
const pagesOf = (pdf: Buffer) => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length;

/** Nothing is printed; it is counted how often it was asked for. */
async function stubPrint(page: Page): Promise<void> {
  await page.evaluate(() => {
    document.documentElement.dataset.printed = '0';
    window.print = () => {
      document.documentElement.dataset.printed = String(Number(document.documentElement.dataset.printed) + 1);
    };
  });
}

/** Asks for the paper; its head and foot are fetched for it. */
async function print(page: Page): Promise<void> {
  const printed = () => page.evaluate(() => Number(document.documentElement.dataset.printed));
  const before = await printed();
  await page.getByRole('button', { name: 'Print the season' }).click();
  await expect.poll(printed).toBe(before + 1);
}

for (const example of ['first', 'drone frame on time', 'every move'] as const) {
  test(`the season stands alone on one page of A4 and of Letter: ${example}`, async ({ page }, { project }) => {
    await open(page);
    if (example !== 'first') {
      await changing(page);
      const examples = page.getByRole('combobox', { name: 'Open an example' });
      await examples.selectOption(example);
      await expect(page.getByText('is open as a hive of its own')).toBeVisible();
      await page.getByRole('button', { name: 'Close' }).click();
    }
    await stubPrint(page);
    // The bands come a moment after the season.
    await expect(page.locator('.stage svg path.most')).toHaveCount(1, { timeout: 20_000 });
    const pins = await page.locator('.stage').getByRole('slider').count();
    for (const format of FORMATS) {
      await print(page);
      const pdf = await page.pdf({ path: `gallery/season-${project.name}-${example.replaceAll(' ', '-')}-${format}.pdf`, format });
      expect(pagesOf(pdf)).toBe(1);
      // Once it is on paper, the page is as it was.
      await expect(page.locator('.season-paper')).toHaveCount(0);
      await expect(page.locator('.stage').getByRole('slider')).toHaveCount(pins);
    }
  });
}

test('the printed season says whose it is, what the marks mean, what is done when, and what to beware of', async ({ page }, { project }) => {
  await open(page);
  await stubPrint(page);
  await expect(page.locator('.stage svg path.most')).toHaveCount(1, { timeout: 20_000 });
  await print(page);
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 718, height: 1040 });
  const paper = page.locator('.season-paper');
  await expect(paper.locator('header')).toContainText('A package in a wet spring, fed');
  await expect(paper).toContainText('Alder Row');
  await expect(paper).toContainText('day 43');
  await expect(paper.locator('.legend')).toContainText('nine in ten colonies');
  await expect(paper.locator('.legend')).toContainText('nurses');
  const works = paper.getByRole('listitem');
  await expect(works.first()).toContainText('hived');
  await expect(works.filter({ hasText: 'feed on' }).first()).toContainText(/\d+ [A-Z][a-z]+/);
  await expect(paper.getByText('Stings can kill someone allergic.')).toBeVisible();
  await expect(paper.getByText('bee inspector')).toBeVisible();
  await expect(paper).toContainText('package of 1.4 kg');
  await expect(paper).toContainText('can weigh 40 kg');
  // Nothing else is on the paper.
  await expect(page.locator('h1')).toBeHidden();
  await expect(page.getByRole('region', { name: 'What next' })).toBeHidden();
  const wide = await paper.evaluate((element) => element.scrollWidth - element.clientWidth);
  expect(wide).toBeLessThanOrEqual(0);
  // Black and greys alone.
  const colours = await paper.evaluate((element) =>
    [...element.querySelectorAll('*')].flatMap((one) => {
      const { color, fill, stroke } = getComputedStyle(one);
      return [color, fill, stroke].filter((value) => {
        const [r, g, b] = value.match(/^rgba?\((\d+), (\d+), (\d+)/)?.slice(1) ?? [];
        return r !== undefined && (r !== g || g !== b);
      });
    }),
  );
  expect([...new Set(colours)]).toEqual([]);
  await page.screenshot({ path: `gallery/season-paper-${project.name}.png`, fullPage: true });
});

test('after printing, the date still moves on the screen', async ({ page }) => {
  await open(page);
  await stubPrint(page);
  await print(page);
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  const before = await date(page).getAttribute('aria-valuetext');
  await date(page).press('ArrowRight');
  await expect(date(page)).not.toHaveAttribute('aria-valuetext', before ?? '');
});
