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
  await expect(page.locator('.stage svg').getByText('May 2014')).toBeVisible();
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
