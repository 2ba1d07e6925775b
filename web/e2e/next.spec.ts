import { readFile } from 'node:fs/promises';
import { accessFaults, changing, expect, isPhone, open, test } from './page';

test('after the demo visits: the list, its calendar file, and the list alone on paper', async ({ page }) => {
  test.slow();
  await open(page);
  const judged = page.getByRole('region', { name: 'Is she in step?' });
  const next = page.getByRole('region', { name: 'What next' });
  await judged.getByRole('button', { name: 'Take the demo hive’s six visits' }).click();
  await expect(judged.getByText('Worked out from 2,000 colonies.')).toBeVisible({ timeout: 60_000 });
  await next.getByRole('button', { name: 'List what to do after these 6 visits' }).click();
  await expect(next.getByRole('heading', { level: 3 })).toHaveText(/from 18 June$/, { timeout: 60_000 });
  const items = next.getByRole('listitem');
  await expect(items.filter({ hasText: /\d of 1,000/ }).first()).toContainText('Why:');
  await expect(next.locator('.list').getByText('Caution:').first()).toBeVisible();
  // Another system of units works nothing out anew.
  await expect(next.locator('.list')).toContainText(/\d kg/);
  await page.getByRole('button', { name: 'lb, °F' }).click();
  await expect(next.locator('.list')).toContainText(/\d lb/);
  await expect(next.locator('.list')).not.toContainText(/\d kg/);

  const saved = page.waitForEvent('download');
  await next.getByRole('button', { name: 'Save as a calendar file' }).click();
  const file = await saved;
  expect(file.suggestedFilename()).toMatch(/^combcast-.*2012-06-18\.ics$/);
  const calendar = await readFile(await file.path(), 'utf8');
  expect(calendar).toMatch(/^BEGIN:VCALENDAR\r\n/);
  expect(calendar.match(/BEGIN:VEVENT/g)).toHaveLength(await items.count());
  const today = await page.evaluate(() => new Date().toISOString().slice(0, 10).replaceAll('-', ''));
  expect(calendar).toContain(`DTSTAMP:${today}T000000Z`);

  expect(await accessFaults(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBe(0);
  const device = isPhone(page) ? 'phone' : 'desktop';
  await next.screenshot({ path: `test-results/gallery/next-${device}.png` });

  const works = await items.count();
  await page.evaluate(() => {
    window.print = () => {};
  });
  const print = next.getByRole('button', { name: 'Print the list' });
  await print.click();
  await page.emulateMedia({ media: 'print' });
  const paper = page.locator('.next-paper');
  await expect(paper).toBeVisible();
  await expect(paper.locator('.box')).toHaveCount(works);
  await expect(paper.locator('footer')).toContainText('Stings can kill');
  await expect(paper).toContainText('Alder Row');
  await expect(judged).toBeHidden();
  await expect(next.locator('.list')).toBeHidden();
  await page.screenshot({ path: `test-results/gallery/next-paper-${device}.png`, fullPage: true });
  await page.emulateMedia({ media: null });
  // The week alone holds the work of its seventh day: after a visit that is often the first there is.
  await next.getByRole('button', { name: 'Print the next week alone' }).click();
  await page.emulateMedia({ media: 'print' });
  await expect(paper).toContainText(/up to \w+ 25 June/);
  await expect(paper).toContainText('Open the hive');
  expect(await paper.locator('.box').count()).toBeLessThan(works);
  await page.emulateMedia({ media: null });
  for (const format of ['A4', 'Letter']) {
    await print.click();
    const pdf = await page.pdf({ path: `test-results/gallery/next-${device}-${format}.pdf`, format });
    expect(pdf.toString('latin1').match(/\/Type ?\/Page\b/g)?.length).toBeLessThanOrEqual(2);
    // Once the list is on paper, the browser's own command prints the page again.
    await page.emulateMedia({ media: 'print' });
    await expect(paper).toBeHidden();
    await page.emulateMedia({ media: null });
  }

  // Without the visits the list is an old one, and another can be made from the date that is looked at.
  await judged.getByRole('button', { name: 'Take the visits away' }).click();
  await expect(next.getByRole('button', { name: /^List what to do from \d+ \w+$/ })).toBeVisible();
  await expect(items).toHaveCount(0);
});

test('without visits: the list from the date that is looked at, and an old one says so', async ({ page }) => {
  test.slow();
  await open(page);
  const next = page.getByRole('region', { name: 'What next' });
  const ask = next.getByRole('button', { name: /^List what to do from \d+ \w+$/ });
  const day = ((await ask.textContent()) ?? '').replace('List what to do from ', '');
  await ask.click();
  await expect(next.getByRole('heading', { level: 3 })).toHaveText(new RegExp(`^.+, from ${day}$`), { timeout: 60_000 });
  await expect(next.locator('.list').getByText(/Read off [\d,]+ colonies of the same start and weather/)).toBeVisible();
  const [ms] = await page.evaluate(() => performance.getEntriesByName('combcast: what next').map(({ duration }) => duration));
  console.log(`list of 1,000 colonies: ${Math.round(ms ?? Number.NaN)} ms`);
  await expect(next.getByRole('button', { name: 'Print the list' })).toBeVisible();
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('wet spring unfed');
  await expect(next.getByText('have changed since this list was made')).toBeVisible();
  await expect(next.getByRole('button', { name: 'Print the list' })).toHaveCount(0);
  // While the bands of the new plan are worked out, those of the old one are pale.
  await expect.poll(() => accessFaults(page), { timeout: 20_000 }).toEqual([]);
});
