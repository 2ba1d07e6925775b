import { accessFaults, changing, compared, date, expect, isPhone, open, story, test, told } from './page';

test('shows the wet spring and its twin at once', async ({ page }) => {
  await open(page);
  await expect(story(page)).toContainText('Mon 11 June, day 43.');
  await expect(page).toHaveTitle(/Alder Row/);
  const [plan, twin] = await compared(page, 'bees');
  expect(plan).toBeGreaterThan(0);
  expect(twin).toBeLessThan(plan);
});

test('the date follows a drag across the strip', async ({ page }) => {
  await open(page);
  await page.locator('.stage').evaluate((stage) => stage.scrollIntoView({ block: 'center' }));
  const tab = await date(page).boundingBox();
  if (!tab) throw new Error('the date has no place');
  const y = tab.y + 120;
  const x = tab.x + tab.width / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 60, y, { steps: 6 });
  await page.mouse.up();
  await expect(story(page)).not.toContainText('day 43.');
  const [spoken] = ((await date(page).getAttribute('aria-valuetext')) ?? '').split(' 2012');
  // The story is told by a worker and comes after the date.
  await expect(story(page)).toContainText(spoken as string);
  const now = Number(await date(page).getAttribute('aria-valuenow'));
  expect(now).toBeLessThan(42);
  expect(now).toBeGreaterThan(20);
});

test('the date goes by keyboard, a day, a week, to either end', async ({ page }) => {
  await open(page);
  await date(page).focus();
  for (const [key, day] of [
    ['ArrowRight', 44],
    ['ArrowLeft', 43],
    ['Shift+ArrowLeft', 36],
    ['Home', 1],
    ['ArrowLeft', 1],
    ['End', 185],
    ['Shift+ArrowRight', 185],
  ] as const) {
    await page.keyboard.press(key);
    await expect(story(page)).toContainText(`day ${day}.`);
  }
  await page.getByRole('button', { name: /arrow keys go a day/ }).focus();
  await page.keyboard.press('Shift+ArrowLeft');
  await expect(story(page)).toContainText('day 178.');
});

test('a heavier package has more bees, by slider and by number', async ({ page }) => {
  await open(page);
  await date(page).press('Home');
  const [before] = await compared(page, 'bees');
  await changing(page);
  await page.getByRole('slider', { name: 'Weight of bees' }).press('PageUp');
  await expect.poll(async () => (await compared(page, 'bees'))[0]).toBeGreaterThan(before);
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('0.5');
  await expect.poll(async () => (await compared(page, 'bees'))[0]).toBeLessThan(before);
});

test('a number out of range stays in its box with the reason, and the rest goes on', async ({ page }) => {
  await open(page);
  await changing(page);
  const weight = page.getByRole('textbox', { name: 'Weight of bees' });
  await weight.fill('70');
  await expect(page.getByText('Expected from 0.2 to 4.5.')).toBeVisible();
  await weight.fill('much');
  await expect(page.getByText('Expected a number from 0.2 to 4.5.')).toBeVisible();
  await expect(weight).toHaveValue('much');
  await date(page).press('Home');
  await expect(story(page)).toContainText('day 1.');
});

test('rain can be made longer, and taken away', async ({ page }) => {
  await open(page);
  const strip = page.locator('.stage svg');
  await expect(strip.getByText('rain', { exact: true })).toHaveCount(1);
  await changing(page);
  const before = await told(page);
  await page.getByRole('textbox', { name: 'For' }).fill('7');
  await expect.poll(() => told(page)).not.toBe(before);
  await page.getByRole('checkbox', { name: /Make it rain/ }).uncheck();
  await expect(strip.getByText('rain', { exact: true })).toHaveCount(0);
});

test('the twin follows: without feed, without rain, a plan that was kept, none', async ({ page }) => {
  await open(page);
  await changing(page);
  const strip = page.locator('.stage svg');
  await page.getByRole('radio', { name: 'the same season without the rain' }).check();
  await expect(page.getByRole('columnheader', { name: 'without the rain' })).toBeVisible();
  await page.getByRole('radio', { name: 'this plan as it is now' }).check();
  // The season comes from a worker: the twin is the plan a moment later.
  const gap = async () => {
    const [plan, twin] = await compared(page, 'bees');
    return twin - plan;
  };
  await expect.poll(gap).toBe(0);
  const [plan] = await compared(page, 'bees');
  await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
  await expect.poll(async () => (await compared(page, 'bees'))[0]).not.toBe(plan);
  await expect.poll(async () => (await compared(page, 'bees'))[1]).toBe(plan);
  await page.getByRole('radio', { name: 'nothing' }).check();
  await expect(page.getByRole('region', { name: 'The day in figures' }).getByRole('columnheader')).toHaveCount(3);
  await expect(strip.locator('.twin')).toHaveCount(0);
});

test('feed can be taken away and comes back as it was', async ({ page }) => {
  await open(page);
  await changing(page);
  const feed = page.getByRole('checkbox', { name: /Feed them/ });
  const syrup = page.getByRole('textbox', { name: 'Syrup at each filling' });
  const before = await syrup.inputValue();
  await feed.uncheck();
  await expect(page.getByRole('columnheader', { name: 'with feed' })).toBeVisible();
  await feed.check();
  await expect(syrup).toHaveValue(before);
});

test('pounds and Fahrenheit are a switch', async ({ page }) => {
  await open(page);
  await expect(page.getByRole('contentinfo')).toContainText('can weigh 40 kg');
  await expect(page.locator('header').first()).toContainText('package of 1.4 kg');
  await page.getByRole('button', { name: 'lb, °F' }).click();
  // On a phone the story is told in brief at first.
  if (isPhone(page)) await page.getByRole('button', { name: 'More of the day' }).click();
  await expect(story(page)).toContainText(/ lb| oz/);
  await expect(page.getByRole('contentinfo')).toContainText('can weigh 90 lb');
  await expect(page.locator('header').first()).toContainText('package of 3 lb');
  await changing(page);
  await expect(page.getByRole('textbox', { name: 'Weight of bees' })).toHaveValue('3');
});

test('nothing is wider than the page, in any state', async ({ page }) => {
  await open(page);
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(await wide()).toBe(0);
  await changing(page);
  await page.getByText('The file as text').click();
  await page.getByText('More: how wet').click();
  expect(await wide()).toBe(0);
});

test('the accessibility checker finds nothing, light or dark, folded or open', async ({ page }) => {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await open(page);
    expect(await accessFaults(page)).toEqual([]);
    await changing(page);
    await page.getByText('The file as text').click();
    await page.getByText('More: how wet').click();
    await page.getByText('The season as a table').click({ force: true });
    expect(await accessFaults(page)).toEqual([]);
  }
});

test('pictures for looking at', async ({ page }, info) => {
  for (const [name, setting] of [
    ['light', { colorScheme: 'light' }],
    ['dark', { colorScheme: 'dark' }],
    ['print', { colorScheme: 'light', media: 'print' }],
  ] as const) {
    await page.emulateMedia(setting);
    await open(page);
    await page.screenshot({ path: `gallery/${info.project.name}-${name}.png`, fullPage: true });
    await page.emulateMedia({ media: null });
  }
  if (isPhone(page)) {
    await changing(page);
    await page.screenshot({ path: 'gallery/phone-changing.png' });
  } else {
    await page.setViewportSize({ width: 1920, height: 1080 });
    await page.screenshot({ path: 'gallery/projector.png', fullPage: true });
  }
});

test('story, hive and the strip down to the moves: one screen on a desktop, one after the other on a phone', async ({ page }) => {
  await open(page);
  const tops = [];
  for (const part of [story(page), page.getByRole('region', { name: 'The hive', exact: true }), page.locator('.stage')]) {
    tops.push((await part.boundingBox())?.y ?? Number.NaN);
  }
  expect(tops).toEqual([...tops].sort((a, b) => a - b));
  const pin = await page.locator('.stage').getByRole('slider', { name: 'deep box on' }).boundingBox();
  const height = page.viewportSize()?.height ?? 0;
  const onFirstScreen = (pin?.y ?? Number.NaN) + (pin?.height ?? 0) <= height;
  expect(onFirstScreen).toBe(!isPhone(page));
});

test('a word of the story brings out what it speaks of, in the hive and in the season', async ({ page }) => {
  await open(page);
  const asideIn = (name: string) => page.getByRole('region', { name, exact: true }).locator('.aside');
  // What comes a moment later moves the words.
  await expect(story(page)).toContainText(/bees \([\d,]+ to [\d,]+\), .*\(on 6\)/);
  await story(page).getByText('frames of brood').hover();
  // Of twenty frames six hold brood; of the season's rows one tells of it.
  await expect(asideIn('The hive')).toHaveCount(14);
  await expect.poll(() => asideIn('The season').count()).toBeGreaterThan(5);
  await story(page).getByText('too few nurse bees').hover();
  await expect(asideIn('The hive')).toHaveCount(0);
  await expect.poll(() => asideIn('The season').count()).toBeGreaterThan(5);
  await page.mouse.move(1, 1);
  await expect(asideIn('The season')).toHaveCount(0);
});

test('a frame is opened by touch and by keyboard, turned over, and looked at through the glass', async ({ page }) => {
  await open(page);
  const hive = page.getByRole('region', { name: 'The hive', exact: true });
  const taken = page.getByRole('region', { name: 'A frame taken out' });
  await hive.getByRole('button', { name: /lower deep, frame 4/ }).click();
  await expect(taken.getByText(/Lower deep, frame 4, the face toward frame 5/)).toBeVisible();
  // Beside each other, two dotted lines lead from the frame's place to its face.
  await expect(page.locator('.leads path')).toHaveAttribute('d', isPhone(page) ? '' : /^M[\d.]+,[\d.]+L.*M.*L/);
  await page.keyboard.press('ArrowLeft');
  await expect(taken.getByText(/frame 3, the face toward frame 4/)).toBeVisible();
  await page.keyboard.press('ArrowUp');
  await expect(taken.getByText(/Upper deep, frame 3/)).toBeVisible();
  await page.keyboard.press('ArrowDown');
  await taken.getByRole('button', { name: 'Turn it over' }).click();
  await expect(taken.getByText(/frame 3, the face toward frame 2/)).toBeVisible();
  const face = taken.getByRole('img', { name: /Lower deep, frame 3/ });
  await face.focus();
  await page.keyboard.press('Space');
  await expect(taken.locator('.glass')).toBeVisible();
  await page.keyboard.press('ArrowRight');
  await expect(taken.locator('.glass')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(taken.locator('.glass')).toHaveCount(0);
});

test('the drawn cells are those of the day in figures', async ({ page }) => {
  await open(page);
  const named = page.getByRole('region', { name: 'A frame taken out' }).getByRole('listitem');
  // On a phone a frame is taken out by a tap alone.
  if (isPhone(page)) await page.getByRole('button', { name: /lower deep, frame 5/ }).click();
  await expect(named.filter({ hasText: 'capped brood' })).toHaveText(/capped brood \d/);
  // A day without brood shows none.
  await date(page).press('Home');
  await expect(story(page)).toContainText('day 1.');
  await expect(named.filter({ hasText: 'capped brood' })).toHaveCount(0);
  await expect(named.filter({ hasText: 'not drawn' })).toHaveCount(1);
});

test('a face that followed the date, cell by cell, looks as one that is drawn anew', async ({ page }) => {
  await open(page);
  const hive = page.getByRole('region', { name: 'The hive', exact: true });
  const turn = page.getByRole('button', { name: 'Turn it over' });
  await hive.getByRole('button', { name: /lower deep, frame 5/ }).click();
  const canvas = page.locator('.face .comb canvas');
  /** Keeps the picture under a name; tells how much of it differs from the one kept under another. */
  const differs = (keep: string, from: string) =>
    canvas.evaluate(
      (one, [keep, from]) => {
        const { width, height } = one as HTMLCanvasElement;
        const copy = Object.assign(document.createElement('canvas'), { width, height }).getContext('2d', { willReadFrequently: true })!;
        copy.drawImage(one as HTMLCanvasElement, 0, 0);
        const now = copy.getImageData(0, 0, width, height).data;
        const kept = ((globalThis as unknown as { kept?: Record<string, Uint8ClampedArray> }).kept ??= {});
        const before = kept[from];
        kept[keep] = now;
        if (!before) return 1;
        let other = 0;
        for (let i = 0; i < now.length; i += 4) if ([0, 1, 2].some((part) => Math.abs((now[i + part] ?? 0) - (before[i + part] ?? 0)) > 0)) other += 1;
        return (4 * other) / now.length;
      },
      [keep, from] as const,
    );
  const day = await story(page).textContent();
  await differs('first', '');
  for (let days = 0; days < 6; days += 1) await date(page).press('ArrowRight');
  await expect(story(page)).not.toHaveText(day ?? '');
  await expect(story(page)).toContainText('day 49');
  // Six days later there is other brood in most cells: the comparison sees it.
  await expect.poll(() => differs('followed', 'first')).toBeGreaterThan(0.05);
  await turn.click();
  expect(await differs('other', 'followed')).toBeGreaterThan(0.02);
  await turn.click();
  // To the pixel.
  expect(await differs('anew', 'followed')).toBe(0);
});
