import type { Locator, Page } from '@playwright/test';
import { accessFaults, allKept, changing, expect, open, reload, test } from './page';

const frame = (page: Page, number: number, box = 'lower deep') => page.getByRole('slider', { name: `Frame ${number}, ${box}`, exact: true });
const word = (page: Page, name: string) => page.getByRole('group', { name: 'What to draw' }).getByRole('button', { name, exact: true });
const amount = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });
const choice = (page: Page, group: string, name: string) => page.getByRole('group', { name: group, exact: true }).getByRole('button', { name });

/** What the rest of the frames is that something is drawn on. */
const rest = (page: Page, frames: number, name: string) => page.locator('p', { hasText: `The rest of these ${frames} frames:` }).getByRole('button', { name });

async function openSheet(page: Page): Promise<void> {
  await open(page);
  await page.getByRole('button', { name: 'Draw what you found' }).filter({ visible: true }).click();
  await expect(frame(page, 1)).toBeVisible();
}

/** Draws down a frame with the chosen word, in shares of the comb. */
async function drawDown(page: Page, on: Locator, from: number, to: number): Promise<void> {
  await on.scrollIntoViewIfNeeded();
  const box = await on.boundingBox();
  if (!box) throw new Error('The frame has no place on the page.');
  const x = box.x + box.width / 2;
  // The comb hangs between the top bar and the floor of the box.
  const y = (share: number) => box.y + box.height * (0.08 + 0.88 * share);
  await page.mouse.move(x, y(from));
  await page.mouse.down();
  for (let step = 1; step <= 4; step += 1) await page.mouse.move(x, y(from + ((to - from) * step) / 4));
  await page.mouse.up();
}

/** The records of the visits as they lie in storage. */
const stored = (page: Page) =>
  page.evaluate(async () => {
    const wait = <T>(request: IDBRequest<T>) => new Promise<T>((resolve) => (request.onsuccess = () => resolve(request.result)));
    const db = await wait(indexedDB.open('combcast'));
    const hives = (await wait(db.transaction('hives').objectStore('hives').getAll())) as { visits: { visit: Record<string, unknown> }[] }[];
    db.close();
    return hives.flatMap(({ visits }) => visits.map(({ visit }) => visit));
  });

/** The combs on which something is drawn, as they lie in storage. */
const combs = (page: Page) =>
  page.evaluate(async () => {
    const wait = <T>(request: IDBRequest<T>) => new Promise<T>((resolve) => (request.onsuccess = () => resolve(request.result)));
    const db = await wait(indexedDB.open('combcast'));
    const hives = (await wait(db.transaction('hives').objectStore('hives').getAll())) as { visits: { sheet: { boxes: { frames: { comb: string }[] }[] } }[] }[];
    db.close();
    return hives.flatMap(({ visits }) => visits.flatMap(({ sheet }) => sheet.boxes.flatMap(({ frames }) => frames.map(({ comb }) => comb).filter((comb) => /[^.]/.test(comb)))));
  });

test('a visit is drawn, and is still there after a reload', async ({ page }) => {
  await openSheet(page);
  await word(page, 'Honey').click();
  for (const number of [3, 4, 5]) await drawDown(page, frame(page, number), 0.02, 0.2);
  await word(page, 'Brood').click();
  for (const number of [3, 4, 5]) await drawDown(page, frame(page, number), 0.3, 0.7);
  await expect(frame(page, 5)).toHaveAttribute('aria-valuetext', /^honey and nectar on a quarter; brood on half; the rest not looked at$/);
  await word(page, 'Not drawn').click();
  await page.getByRole('button', { name: 'on the other 7' }).click();
  await rest(page, 3, 'empty comb').click();
  await expect(page.getByText('not written down while another box is not looked at')).toHaveCount(2);
  await page.getByRole('button', { name: 'upper deep' }).click();
  await word(page, 'Not drawn').click();
  await expect(page.getByText('not written down while another box is not looked at')).toHaveCount(0);
  await page.getByRole('button', { name: 'on all 10 frames' }).click();
  await choice(page, 'Eggs seen', 'yes').click();
  await choice(page, 'Queen cells', 'none').click();
  await amount(page, 'Mite wash').fill('3');
  await amount(page, 'Written in the yard').fill('Calm.');
  const record = {
    date: '2012-06-11',
    frames_of_brood: [1.5, 0],
    frames_drawn: [3, 0],
    frames_of_stores: 0.75,
    eggs_seen: true,
    cups: 0,
    charged_cells: 0,
    capped_cells: 0,
    wash: { mites: 3, bees: 300, sugar: false },
    notes: 'Calm.',
  };
  await expect.poll(() => stored(page)).toEqual([record]);
  await reload(page);
  await expect(frame(page, 5)).toHaveAttribute('aria-valuetext', 'honey and nectar on a quarter; brood on half; empty comb on a quarter');
  await expect(choice(page, 'Eggs seen', 'yes')).toHaveAttribute('aria-pressed', 'true');
  await expect(amount(page, 'Mite wash')).toHaveValue('3');
  // Beside what was expected, and as a cross on the strip.
  await page.getByRole('button', { name: 'Compare' }).click();
  await expect(page.getByRole('img', { name: /^found, Mon 11 June: 1½ frames of brood, 3 drawn, ¾ frame of honey and nectar, eggs, no queen cells, 3 mites/ })).toBeVisible();
  await expect(page.locator('path.visit')).toHaveCount(1);
});

test('brood lies where it was drawn, and is judged after one word: there was no other', async ({ page }) => {
  await openSheet(page);
  await word(page, 'Brood').click();
  for (const number of [4, 5, 6, 7]) await drawDown(page, frame(page, number), 0.35, 0.8);
  await expect(frame(page, 4)).toHaveAttribute('aria-valuetext', 'brood on half; the rest not looked at');
  expect(await combs(page)).toEqual(['....bbbbbb..', '....bbbbbb..', '....bbbbbb..', '....bbbbbb..']);
  await expect.poll(() => stored(page)).toEqual([{ date: '2012-06-11' }]);
  // Where Compare is pressed.
  const offer = page.locator('p', { hasText: 'Brood on 4 frames.' }).getByRole('button', { name: 'No brood elsewhere' });
  await expect(offer).toBeInViewport();
  await offer.click();
  await expect(offer).toHaveCount(0);
  await expect.poll(() => stored(page)).toEqual([{ date: '2012-06-11', frames_of_brood: [2, 0] }]);
  await expect(frame(page, 1)).toHaveAttribute('aria-valuetext', 'no brood; otherwise not looked at');
  await expect(frame(page, 4)).toHaveAttribute('aria-valuetext', 'brood on half; the rest without brood');
  await reload(page);
  await expect(frame(page, 1)).toHaveAttribute('aria-valuetext', 'no brood; otherwise not looked at');
  await page.getByRole('button', { name: 'Compare' }).click();
  await expect(page.getByText('The drawing is unfinished: no verdict yet.')).toHaveCount(0);
  await expect(page.getByRole('img', { name: /^found, Mon 11 June: 2 frames of brood/ })).toBeVisible();
});

test('what was not looked at is blank, and never zero', async ({ page }) => {
  await openSheet(page);
  await word(page, 'Brood').click();
  await drawDown(page, frame(page, 4), 0.02, 0.6);
  await expect(page.getByText('not written down while 10 frames are not looked at').first()).toBeVisible();
  await expect.poll(() => stored(page)).toEqual([{ date: '2012-06-11' }]);
  await word(page, 'Rub out').click();
  await page.getByRole('button', { name: 'to the foot' }).click();
  await expect.poll(() => stored(page)).toEqual([]);
  await choice(page, 'Eggs seen', 'no').click();
  await expect.poll(() => stored(page)).toEqual([{ date: '2012-06-11', eggs_seen: false }]);
  await choice(page, 'Eggs seen', 'no').click();
  await expect.poll(() => stored(page)).toEqual([]);
});

test('everything can be drawn without a drag: by keyboard, by taps, by words', async ({ page }) => {
  await openSheet(page);
  await word(page, 'Bees').click();
  await frame(page, 1).focus();
  for (let step = 0; step < 3; step += 1) await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowUp');
  await expect(frame(page, 1)).toHaveAttribute('aria-valuetext', 'bees on a quarter');
  await expect(frame(page, 2)).toHaveAttribute('aria-valuetext', 'bees on eleven twelfths');
  await expect(frame(page, 2)).toBeFocused();
  await page.getByRole('button', { name: 'No bees on the other 8' }).click();
  await page.getByRole('button', { name: 'upper deep' }).click();
  const upper = 'Frames of bees, upper deep';
  await page.getByRole('button', { name: `${upper}: more`, exact: true }).click();
  await page.getByRole('button', { name: `${upper}: less`, exact: true }).click();
  await expect.poll(() => stored(page)).toEqual([{ date: '2012-06-11', frames_of_bees: [1.25, 0.5] }]);
  await amount(page, upper).fill('2¾');
  await expect.poll(() => stored(page)).toEqual([{ date: '2012-06-11', frames_of_bees: [1.25, 2.75] }]);
  // What cannot be a number stays in the box with the reason, and changes nothing.
  await amount(page, upper).fill('many');
  await expect(page.getByText('a number from 0 to 20')).toBeVisible();
  expect(await stored(page)).toEqual([{ date: '2012-06-11', frames_of_bees: [1.25, 2.75] }]);
  // With steppers: a word, a frame, more of it.
  await word(page, 'Honey').click();
  await page.getByRole('button', { name: 'Next frame' }).click();
  await page.getByRole('button', { name: 'More honey and nectar' }).click();
  await page.getByRole('button', { name: 'More honey and nectar' }).click();
  await expect(page.getByText(/^honey and nectar on a sixth; the rest not looked at/)).toBeVisible();
});

test('every stroke can be undone, and a deleted visit comes back', async ({ page }) => {
  await openSheet(page);
  await amount(page, 'Frames of bees, lower deep').fill('4');
  await drawDown(page, frame(page, 4), 0.02, 0.6);
  const drawn = /^brood on (half|seven twelfths|two thirds)/;
  await expect(frame(page, 4)).toHaveAttribute('aria-valuetext', drawn);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(frame(page, 4)).toHaveAttribute('aria-valuetext', 'not looked at');
  await expect(amount(page, 'Frames of bees, lower deep')).toHaveValue('4');
  await page.getByRole('button', { name: 'Delete this visit' }).click();
  await expect.poll(() => stored(page)).toEqual([]);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(amount(page, 'Frames of bees, lower deep')).toHaveValue('4');
});

test('visits have a day each, and move to another one', async ({ page }) => {
  await openSheet(page);
  await choice(page, 'Eggs seen', 'yes').click();
  await page.getByLabel('Date of the visit').fill('2012-06-18');
  await expect(choice(page, 'Eggs seen', 'yes')).toHaveAttribute('aria-pressed', 'false');
  await choice(page, 'Eggs seen', 'no').click();
  await page.getByLabel('It was another day').fill('2012-06-11');
  await expect(page.getByText('That day has a visit already.')).toBeVisible();
  await page.getByLabel('It was another day').fill('2012-06-19');
  await expect.poll(() => stored(page)).toEqual([
    { date: '2012-06-11', eggs_seen: true },
    { date: '2012-06-19', eggs_seen: false },
  ]);
  await page.getByRole('button', { name: '11 June', exact: true }).click();
  await expect(choice(page, 'Eggs seen', 'yes')).toHaveAttribute('aria-pressed', 'true');
});

test('what was expected can be hidden, and stays hidden', async ({ page }) => {
  await openSheet(page);
  const expected = page.getByRole('img', { name: /^What is expected in the lower deep/ });
  await expect(expected).toBeVisible();
  const range = page.getByText(/^\d½? to \d½?$/);
  await expect(range.first()).toBeVisible();
  await page.getByRole('button', { name: 'Hide what was expected' }).click();
  await expect(expected).toHaveCount(0);
  await expect(range).toHaveCount(0);
  await reload(page);
  await expect(page.getByRole('button', { name: 'Show what was expected' })).toBeVisible();
  await expect(expected).toHaveCount(0);
});

test('killed while it is being kept, a visit is whole', async ({ page, context }) => {
  await openSheet(page);
  await word(page, 'Brood').click();
  for (const number of [1, 2, 3, 4, 5]) await frame(page, number).press('Enter');
  await allKept(page);
  await frame(page, 6).press('Enter');
  await Promise.all([frame(page, 7).press('Enter').catch(() => {}), page.close()]);
  const again = await context.newPage();
  await again.goto('./#/visit');
  await expect(frame(again, 1)).toHaveAttribute('aria-valuetext', 'brood on all');
  for (const number of [2, 3, 4, 5]) await expect(frame(again, number)).toHaveAttribute('aria-valuetext', 'brood on all');
  // The last two may be lost; what is there is whole.
  for (const number of [6, 7]) await expect(frame(again, number)).toHaveAttribute('aria-valuetext', /^(brood on all|not looked at)$/);
  await expect(again.locator('.trouble')).toHaveCount(0);
});

test('two windows see each other’s strokes, and neither overwrites what is newer', async ({ page, context }) => {
  await openSheet(page);
  const other = await context.newPage();
  await other.goto('./#/visit');
  await expect(frame(other, 1)).toBeVisible();
  await word(page, 'Brood').click();
  await frame(page, 3).press('Enter');
  await expect(frame(other, 3)).toHaveAttribute('aria-valuetext', 'brood on all');
  await word(other, 'Honey').click();
  await frame(other, 4).press('Enter');
  await expect(frame(page, 4)).toHaveAttribute('aria-valuetext', 'honey and nectar on all');
  await other.close();
  // A window that has heard nothing of what another one wrote.
  await page.evaluate(async () => {
    const wait = <T>(request: IDBRequest<T>) => new Promise<T>((resolve) => (request.onsuccess = () => resolve(request.result)));
    const db = await wait(indexedDB.open('combcast'));
    const store = db.transaction('hives', 'readwrite').objectStore('hives');
    const [hive] = (await wait(store.getAll())) as { revision: number; name: string }[];
    if (hive) await wait(store.put({ ...hive, revision: hive.revision + 5, name: 'Newer' }));
    db.close();
  });
  await frame(page, 5).press('Enter');
  await expect(page.getByText('Two windows changed this hive at once.')).toBeVisible();
  await expect(frame(page, 5)).toHaveAttribute('aria-valuetext', 'brood on all');
  await page.goto('./#/yard');
  await expect(page.getByRole('button', { name: /^Open / })).toHaveText(['Newer', 'A package in a wet spring, fed']);
});

test.describe('with a touch screen', () => {
  test.use({ hasTouch: true });

  test('a thumb draws, and does not scroll the page', async ({ page, context }) => {
    await openSheet(page);
    await word(page, 'Brood').click();
    const box = await frame(page, 4).boundingBox();
    if (!box) throw new Error('The frame has no place on the page.');
    const client = await context.newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', share: number) =>
      client.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x: box.x + box.width / 2, y: box.y + box.height * share }] });
    const scrolled = await page.evaluate(() => scrollY);
    await touch('touchStart', 0.12);
    for (const share of [0.2, 0.3, 0.4, 0.5]) await touch('touchMove', share);
    await expect(page.locator('span.told')).toHaveText(/brood on\s*half of 4/);
    await touch('touchEnd', 0.5);
    await expect(frame(page, 4)).toHaveAttribute('aria-valuetext', 'brood on half; the rest not looked at');
    expect(await page.evaluate(() => scrollY)).toBe(scrolled);
  });
});

test('pounds and quart jars are written down as the visits file has them', async ({ page }) => {
  await open(page);
  await page.getByRole('button', { name: 'lb, °F' }).click();
  await page.goto('./#/visit');
  await amount(page, 'Honey and nectar').fill('10');
  await amount(page, 'Weight of the hive').fill('80');
  await amount(page, 'Syrup taken').fill('2');
  await choice(page, 'Kind of syrup', '2:1').click();
  await expect
    .poll(() => stored(page))
    .toEqual([{ date: '2012-06-11', stores_kg: 4.536, weight_kg: 36.287, syrup_taken: { kind: '2:1', jars: 2 } }]);
});

test('pictures of a visit for looking at', async ({ page }, { project }) => {
  await openSheet(page);
  await word(page, 'Honey').click();
  for (const number of [2, 3, 4, 5, 6, 7]) await drawDown(page, frame(page, number), 0.02, 0.2);
  await word(page, 'Pollen').click();
  for (const number of [4, 5, 6]) await drawDown(page, frame(page, number), 0.26, 0.3);
  await word(page, 'Brood').click();
  for (const number of [4, 5, 6, 7]) await drawDown(page, frame(page, number), 0.35, 0.8);
  await word(page, 'Bees').click();
  for (const number of [4, 5, 6]) await drawDown(page, frame(page, number), 0.1, 0.75);
  await word(page, 'Not drawn').click();
  await page.getByRole('button', { name: 'on the other 4' }).click();
  await choice(page, 'Eggs seen', 'yes').click();
  await page.evaluate(() => scrollTo(0, 0));
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await page.screenshot({ path: `gallery/visit-${project.name}-${colorScheme}.png` });
  }
  await page.emulateMedia({ colorScheme: 'light', media: 'print' });
  await page.screenshot({ path: `gallery/visit-paper-${project.name}.png`, fullPage: true });
  await page.emulateMedia({ media: null, colorScheme: 'light' });
  await page.getByRole('button', { name: 'Compare' }).click();
  await expect(page.getByRole('img', { name: /^found, / })).toBeVisible();
  await page.screenshot({ path: `gallery/visit-beside-${project.name}.png` });
});

test('in the yard, without a network, a visit is drawn and kept', async ({ page, context }) => {
  await open(page);
  await expect(page.getByText('it opens without a network')).toBeVisible({ timeout: 20_000 });
  await context.setOffline(true);
  await page.goto('./#/visit');
  await reload(page);
  await word(page, 'Brood').click();
  await frame(page, 3).press('Enter');
  await page.goto('./#/yard');
  await expect(page.getByText('1 visit;')).toBeVisible();
  await reload(page);
  await expect(page.getByText('1 visit;')).toBeVisible();
});

test('the sheet has no access faults, drawn on or blank, light or dark', async ({ page }) => {
  await openSheet(page);
  expect(await accessFaults(page)).toEqual([]);
  await drawDown(page, frame(page, 4), 0.02, 0.6);
  await choice(page, 'Queen cells', 'some').click();
  await amount(page, 'Syrup taken').fill('2');
  await amount(page, 'Mite wash').fill('2');
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await accessFaults(page)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wide).toBeLessThanOrEqual(0);
});

test('the sheet prints on one page of A4 and of Letter, blank and filled', async ({ page }) => {
  await openSheet(page);
  const pages = async (format: string) => (await page.pdf({ format })).toString('latin1').match(/\/Type\s*\/Page\b/g)?.length;
  for (const format of ['A4', 'Letter']) expect(await pages(format)).toBe(1);
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByText('visit sheet for Mon 11 June, day 43')).toBeVisible();
  await expect(page.getByText('call the bee inspector').filter({ visible: true })).toHaveCount(1);
  await page.emulateMedia({ media: null });
  await word(page, 'Brood').click();
  await frame(page, 3).press('Enter');
  await choice(page, 'Eggs seen', 'yes').click();
  for (const format of ['A4', 'Letter']) expect(await pages(format)).toBe(1);
});

test('on paper, fallen mites are those of a day, beside what is expected of a plan with mites', async ({ page }) => {
  await open(page);
  await changing(page);
  await page.getByRole('combobox', { name: 'Open an example' }).selectOption('august treatment');
  await expect(page.getByText('is open as a hive of its own')).toBeVisible();
  await page.goto('./#/visit');
  const onScreen = page.locator('.entry', { hasText: 'Mites fallen' }).locator('.expected b');
  await expect(onScreen).toHaveText(/^\d/);
  const mites = (await onScreen.textContent()) ?? '';
  await page.emulateMedia({ media: 'print' });
  const line = page.locator('article.paper .lines').getByText('Mites fallen in a day');
  await expect(line).toBeVisible();
  await expect(line.locator('xpath=following-sibling::em[1]')).toHaveText(mites);
});

test('on paper, what is drawn on takes the room of the page, and contents that look alike in grey have textures', async ({ page }) => {
  await openSheet(page);
  await expect(page.locator('.entry .expected span').first()).toBeVisible();
  await page.emulateMedia({ media: 'print' });
  const mm = (of: number) => (of / 96) * 25.4;
  const paper = page.locator('article.paper');
  // The pages less their margins, in mm.
  for (const [wide, high] of [[180, 273], [185.9, 255.4]] as const) {
    await page.setViewportSize({ width: Math.floor((wide / 25.4) * 96), height: Math.floor((high / 25.4) * 96) });
    const whole = await paper.boundingBox();
    const foot = await paper.locator('.cautions').boundingBox();
    if (!whole || !foot) throw new Error('The sheet has no place on the page.');
    expect(mm(whole.height)).toBeLessThanOrEqual(high);
    expect(mm(foot.y + foot.height)).toBeGreaterThan(high - 3);
    for (const box of await paper.locator('.found .blank').all()) expect(mm((await box.boundingBox())?.height ?? 0)).toBeGreaterThan(19);
  }
  const fill = (kind: string) => paper.locator(`.area.${kind}`).first().evaluate((area) => getComputedStyle(area).fill);
  const fills = await Promise.all(['honey', 'nectar', 'pollen', 'empty', 'capped'].map(fill));
  expect(new Set(fills).size).toBe(5);
  expect(fills.slice(0, 2).every((one) => one.startsWith('url('))).toBe(true);
});

test('a typical visit of two boxes takes few taps and strokes', async ({ page }) => {
  await openSheet(page);
  let hands = 0;
  const tap = async (button: ReturnType<typeof word>) => {
    hands += 1;
    await button.click();
  };
  const stroke = async (number: number, from: number, to: number) => {
    hands += 1;
    await drawDown(page, frame(page, number), from, to);
  };
  // The lower box: five frames with honey above brood, the rest not drawn, bees on six.
  await tap(word(page, 'Honey'));
  for (const number of [3, 4, 5, 6, 7]) await stroke(number, 0.02, 0.2);
  await tap(word(page, 'Brood'));
  for (const number of [3, 4, 5, 6, 7]) await stroke(number, 0.3, 0.7);
  await tap(word(page, 'Not drawn'));
  await tap(page.getByRole('button', { name: 'on the other 5' }));
  await tap(rest(page, 5, 'empty comb'));
  await tap(word(page, 'Bees'));
  for (const number of [3, 4, 5, 6, 7]) await stroke(number, 0.02, 0.9);
  await tap(page.getByRole('button', { name: /^No bees on the other/ }));
  // The upper box: nothing drawn, no bees.
  await tap(page.getByRole('button', { name: 'upper deep' }));
  await tap(word(page, 'Not drawn'));
  await tap(page.getByRole('button', { name: 'on all 10 frames' }));
  await tap(word(page, 'Bees'));
  await tap(page.getByRole('button', { name: /^No bees on/ }));
  await tap(choice(page, 'Eggs seen', 'yes'));
  await tap(choice(page, 'Queen cells', 'none'));
  await expect
    .poll(async () => (await stored(page))[0])
    .toMatchObject({ frames_of_brood: [2.5, 0], frames_drawn: [5, 0], eggs_seen: true, cups: 0 });
  console.log(`a visit of two boxes: ${hands} taps and strokes`);
  expect(hands).toBeLessThanOrEqual(40);
});
