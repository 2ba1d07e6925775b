import { changing, date, expect, isPhone, open, story, test } from './page';

test('a thumb steps the date by a day, and the calendar of the story leads to any day', async ({ page }) => {
  await open(page);
  if (isPhone(page)) {
    for (const [name, day] of [
      ['A day later', 44],
      ['A day later', 45],
      ['A day earlier', 44],
      ['A day earlier', 43],
    ] as const) {
      const button = page.getByRole('button', { name });
      await button.scrollIntoViewIfNeeded();
      const box = await button.boundingBox();
      if (!box) throw new Error('the step has no place');
      expect(box.width).toBeGreaterThanOrEqual(44);
      // At the rim of what a finger may take.
      await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2 + 18);
      await expect(story(page)).toContainText(`day ${day}.`);
    }
  }
  await page.evaluate(() => {
    HTMLInputElement.prototype.showPicker = function () {
      document.body.dataset.opened = this.min + ' ' + this.max;
    };
  });
  await page.getByRole('button', { name: /arrow keys go a day/ }).click();
  await expect(page.locator('body')).toHaveAttribute('data-opened', '2012-04-30 2012-10-31');
  await page.getByLabel('Choose a date').fill('2012-07-01');
  await expect(story(page)).toContainText('Sun 1 July, day 63.');
});

test('the year of the weather and the rain go along with the start', async ({ page }) => {
  await open(page);
  await changing(page);
  const panel = page.locator('#change');
  await panel.getByLabel('Of', { exact: true }).selectOption({ label: 'New York' });
  const year = panel.getByLabel('As in');
  await year.selectOption('2014');
  await panel.getByRole('group', { name: 'Start' }).getByLabel('On').first().fill('2014-05-03');
  await expect(year).toHaveValue('2014');
  await expect(panel.getByRole('group', { name: 'Weather' }).getByLabel('From')).toHaveValue('2014-05-10');
  await expect(page.locator('.stage svg').getByText(/^(June|July) 2014$/)).toBeVisible();
  await expect(page.locator('.stage svg').getByText('rain', { exact: true })).toHaveCount(1);
});

test('weather that is drawn at random is said to be', async ({ page }) => {
  await open(page);
  await changing(page);
  const drawn = page.getByText('All of this season’s weather is drawn at random: no station measured it.');
  await expect(drawn).toHaveCount(0);
  const place = page.locator('#change').getByLabel('Of', { exact: true });
  await place.selectOption(await place.locator('optgroup').nth(1).locator('option').first().getAttribute('value'));
  await page.getByRole('checkbox', { name: 'Make it rain' }).uncheck();
  // Beside the control, and near the story.
  await expect(drawn).toHaveCount(2);
  await expect(date(page)).toBeVisible();
});

test('a drone frame goes beside the brood nest, and a refusal stands at its entries', async ({ page }) => {
  test.slow();
  await open(page);
  const tried = page.getByRole('region', { name: 'Tried over and over' });
  await tried.getByRole('heading', { name: 'When must the drone frame come out?' }).click();
  await expect(tried.getByText(/It goes into box 1, place \d+\./)).toBeVisible({ timeout: 60_000 });
  await expect(tried.getByText('There are no mites in this plan: set how many under Start.')).toHaveCount(1);
  await expect(tried.getByText(/0 mites/)).toHaveCount(0);
  await changing(page);
  const panel = page.locator('#change');
  await panel.getByRole('button', { name: /Add on/ }).click();
  await expect(panel.getByLabel('Where')).toHaveValue('at');
  await expect(panel.getByText('Refused:')).toHaveCount(0);
  // Onto drawn comb, and nothing may go.
  await panel.locator('.editor .place select').last().selectOption('5');
  await panel.getByRole('checkbox', { name: 'take out what is there' }).uncheck();
  const refused = panel.locator('.editor .refused');
  await expect(refused).toContainText('a drawn frame is at place 5 of box 1');
  await refused.getByRole('button', { name: 'Take out what is there' }).click();
  await expect(refused).toHaveCount(0);
  await panel.getByRole('textbox', { name: 'Mites on 100 bees' }).fill('2');
  await expect(tried.getByText('There are no mites in this plan')).toHaveCount(0, { timeout: 60_000 });
});

test('the last day of a drone frame is told before it comes, and leads to its window', async ({ page }) => {
  test.slow();
  await open(page);
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('drone frame on time');
  await expect(page.locator('.stage').getByRole('slider', { name: 'drone frame in' })).toHaveCount(1);
  await page.getByRole('button', { name: 'Close' }).click();
  const pin = page.locator('.stage').getByRole('slider', { name: 'drone frame in' });
  const number = async (name: string) => Number(await pin.getAttribute(name));
  const days = (await number('aria-valuenow')) - (await number('aria-valuemin'));
  await date(page).press('Home');
  for (let day = 0; day < days; day += 1) await date(page).press('ArrowRight');
  await expect(date(page)).toHaveAttribute('aria-valuetext', (await pin.getAttribute('aria-valuetext')) ?? '');
  const due = page.getByRole('button', { name: 'drone frame out, at the latest' });
  await expect(due).toBeVisible({ timeout: 60_000 });
  await due.click();
  await expect(page.getByText('last sure day', { exact: true })).toBeVisible({ timeout: 60_000 });
});

test.describe('with a touch screen', () => {
  test.use({ hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } });
  test('whatever a thumb may tap is large enough for it', async ({ page }) => {
    await open(page);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('header a, header button, .further button, .tab button, summary, .bar button')].flatMap((target) => {
        const { width, height } = target.getBoundingClientRect();
        const more = getComputedStyle(target, '::after');
        const reach = (side: 'width' | 'height') => (more.content === 'none' ? 0 : Number.parseFloat(more[side]) || 0);
        return width === 0 || (Math.max(width, reach('width')) >= 43.5 && Math.max(height, reach('height')) >= 43.5) ? [] : [`${target.textContent?.trim()}: ${width} x ${height}`];
      }),
    );
    expect(small).toEqual([]);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(wide).toBe(0);
  });
});

test('the visit sheet keeps names and figures apart on the smallest phone', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await open(page);
  await page.goto('./#/visit');
  const names = page.locator('.entry .name');
  await expect(names.first()).toBeVisible();
  const overlaps = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('.entry')].flatMap((entry) => {
      const name = entry.querySelector<HTMLElement>('.name');
      return name && name.scrollWidth > name.clientWidth + 1 ? [name.textContent] : [];
    }),
  );
  expect(overlaps).toEqual([]);
});

test('that a colony has no mites can be said, and is not the same as saying nothing', async ({ page }) => {
  await open(page);
  const assumed = page.getByText(/^The plan does not say how many mites/);
  await expect(assumed.first()).toBeVisible();
  await changing(page);
  await page.getByRole('button', { name: 'It has none' }).click();
  await expect(assumed).toHaveCount(0);
  await expect(page.getByText('How many is not said')).toHaveCount(0);
});
