import type { Page } from '@playwright/test';
import { changing, date, expect, isPhone, open, story, test, told } from './page';

const csv = (name: string, ...lines: string[]) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(lines.join('\n')) });
const sideways = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
/** How far an element reaches into the window, px. */
const inSight = (page: Page, selector: string) =>
  page.locator(selector).first().evaluate((one) => {
    const bar = document.querySelector('.bar')?.getBoundingClientRect();
    const { top, bottom } = one.getBoundingClientRect();
    return Math.min(bottom, bar?.height ? bar.top : innerHeight) - Math.max(top, 0);
  });
const letters = (page: Page, size: string) => page.evaluate((to) => (document.documentElement.style.fontSize = to), size);

for (const [locale, chooserName, ofName, stays] of [
  ['en-GB', 'Weather file of your own', 'Of', 'keeps the weather'],
  ['de-DE', 'Eigene Wetterdatei', 'Von', 'behält das Wetter'],
] as const) {
  test.describe(`in ${locale}`, () => {
    test.use({ locale });

    test('why a weather file cannot be used stands at its chooser, and the season keeps its weather', async ({ page }) => {
      await page.goto('./');
      await expect(page.locator('#change input').first()).toBeAttached();
      const before = await told(page);
      await page.locator('button[aria-controls="change"]:visible').click();
      const panel = page.locator('#change');
      const of = panel.getByLabel(ofName, { exact: true }).first();
      const record = await of.inputValue();
      const fault = panel.getByRole('alert');
      for (const [file, what] of [
        [{ name: 'sheet.pdf', mimeType: 'application/pdf', buffer: Buffer.from([0x25, 0x50, 0x44, 0x46, 0x0a, 0, 1, 2, 3]) }, /sheet\.pdf/],
        [csv('words.csv', 'date,tmin,tmax,precip', '2012-01-01,1,2,0', '2012-01-02,warm,2,0'), /words\.csv.* 3.*tmin/],
      ] as const) {
        await panel.getByLabel(chooserName).setInputFiles(file);
        await expect(fault).toContainText(what);
        await expect(fault).toContainText(stays);
        await expect(of).toHaveValue(record);
      }
      await fault.scrollIntoViewIfNeeded();
      await expect(fault).toBeInViewport();
      // Another choice is another matter.
      await of.selectOption({ index: 1 });
      await expect(fault).toHaveCount(0);
      await of.selectOption(record);
      await expect.poll(() => told(page)).toBe(before);
    });

    test('the printed sheet has every box as expected and as found, with its numbers, on one page', async ({ page }) => {
      await page.goto('./');
      await expect(page.locator('.stage svg.rows')).toBeVisible();
      await page.goto('./#/visit');
      await expect(page.locator('.combs')).toBeVisible();
      for (const format of ['A4', 'Letter']) expect((await page.pdf({ format })).toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
      await page.emulateMedia({ media: 'print' });
      const paper = page.locator('article.paper');
      await expect(paper.locator('.drawn')).toHaveCount(4);
      await expect(paper.locator('.found .numbers span')).toHaveCount(20);
      await expect(paper.locator('.tick')).toHaveCount(20 * 3);
      await expect(paper.locator('.key svg')).toHaveCount(8);
    });

    test('with letters twice as large nothing is lost and nothing runs out of the page', async ({ page }) => {
      await page.goto('./');
      await expect(page.locator('.stage svg.rows')).toBeVisible();
      for (const size of ['150%', '200%']) {
        await letters(page, size);
        await expect.poll(() => sideways(page)).toBe(0);
        for (const part of ['header .yard a', 'header nav a', 'button[aria-controls="change"]:visible', isPhone(page) ? '.bar .filled' : '.open-visit']) {
          const box = await page.locator(part).first().boundingBox();
          expect(box?.width, part).toBeGreaterThan(20);
          expect((box?.x ?? 0) + (box?.width ?? 0), part).toBeLessThanOrEqual(page.viewportSize()?.width ?? 0);
        }
      }
      // The strip's letters have grown with them.
      const size = () => page.locator('.stage svg.rows text').first().evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      await expect.poll(size).toBeGreaterThan(24);
      // The tab with the date stands over nothing that is pressed.
      const [tab, zoom] = [await page.locator('.tab').boundingBox(), await page.locator('.further').boundingBox()];
      if (!tab || !zoom) throw new Error('tab or buttons have no place');
      expect(tab.y >= zoom.y + zoom.height - 1 || tab.y + tab.height <= zoom.y + 1).toBe(true);
    });
  });
}

test('the place of one’s own is set, and what stays of the plan over weather of one’s own is said', async ({ page }) => {
  await open(page);
  await changing(page);
  const place = page.locator('#change').getByRole('group', { name: 'Place' });
  await place.getByLabel('Name of the yard').fill('Upper Orchard');
  await place.getByLabel('Name of the yard').press('Enter');
  await expect(page).toHaveTitle(/Upper Orchard/);
  const before = await told(page);
  await place.getByLabel('What grows around').selectOption('bare');
  await expect.poll(() => told(page)).not.toBe(before);
  await place.getByRole('textbox', { name: 'Latitude' }).fill('70');
  await expect(place.getByText('Expected from 0 to 66.')).toBeVisible();
  await place.getByRole('textbox', { name: 'Latitude' }).fill('41.5');
  await place.getByLabel('Of the equator').selectOption('south');
  const height = place.getByRole('textbox', { name: 'Height above the sea' });
  await height.fill('300');
  await page.getByText('The file as text').click();
  const text = page.getByRole('textbox', { name: 'The scenario file as text' });
  await expect(text).toHaveValue(/latitude = -41\.5/);
  await expect(text).toHaveValue(/elevation_m = 300/);
  await expect(text).toHaveValue(/forage = "bare"/);
  await page.getByRole('button', { name: 'lb, °F' }).click();
  await expect(height).toHaveValue('984');
  const days = Array.from({ length: 366 }, (_, i) => new Date(Date.UTC(2012, 0, 1 + i)).toISOString().slice(0, 10));
  await page.getByLabel('Weather file of your own').setInputFiles(csv('garden.csv', 'date,high_c,low_c,rain_mm', ...days.map((day, i) => `${day},${15 + (i % 7)},${5 + (i % 5)},0`)));
  await expect(page.getByText('The place is still Upper Orchard, 41.5° south of the equator.')).toBeVisible();
  const rain = page.getByText('The rain spell of the plan is laid over this weather too.');
  await expect(rain).toBeVisible();
  await page.getByRole('button', { name: 'Take it off' }).click();
  await expect(rain).toHaveCount(0);
  await expect(page.getByRole('checkbox', { name: /Make it rain/ })).not.toBeChecked();
});

test('rain that was switched off comes back as it was', async ({ page }) => {
  await open(page);
  await changing(page);
  const weather = page.locator('#change').getByRole('group', { name: 'Weather' });
  await weather.getByLabel('From').fill('2012-05-03');
  await weather.getByRole('textbox', { name: 'For' }).fill('2');
  const rain = page.getByRole('checkbox', { name: /Make it rain/ });
  await rain.uncheck();
  await expect(weather.getByLabel('From')).toHaveCount(0);
  await rain.check();
  await expect(weather.getByLabel('From')).toHaveValue('2012-05-03');
  await expect(weather.getByRole('textbox', { name: 'For' })).toHaveValue('2');
});

test('a way to start that was left comes back with its comb', async ({ page }) => {
  await open(page);
  await changing(page);
  const start = page.locator('#change').getByRole('group', { name: 'Start' });
  const comb = start.getByRole('combobox', { name: 'On', exact: true });
  await expect(comb).toHaveValue('foundation');
  for (const [kind, on] of [['nuc', 'drawn'], ['swarm', 'foundation'], ['established', 'drawn'], ['package', 'foundation']] as const) {
    await start.getByRole('combobox', { name: 'With', exact: true }).selectOption(kind);
    await expect(comb).toHaveValue(on);
  }
});

test('what was changed is undone from the page itself', async ({ page }) => {
  await open(page);
  const undo = page.getByRole('button', { name: 'Undo', exact: true }).and(page.locator(':visible'));
  await expect(undo).toHaveCount(0);
  const pin = page.locator('.stage').getByRole('slider', { name: 'deep box on' });
  const before = await pin.getAttribute('aria-valuetext');
  await pin.focus();
  await page.keyboard.press('ArrowRight');
  await expect(pin).not.toHaveAttribute('aria-valuetext', before ?? '');
  await expect(undo).toBeInViewport();
  await undo.click();
  await expect(pin).toHaveAttribute('aria-valuetext', before ?? '');
  await expect(undo).toHaveCount(0);
});

test('the words of the story are reached by keyboard, and lead to what they speak of', async ({ page }) => {
  await open(page);
  await expect(story(page)).toContainText(/bees \([\d,]+ to [\d,]+\)/);
  const word = story(page).getByRole('button', { name: 'too few nurse bees' });
  await story(page).getByRole('button', { name: /arrow keys/ }).focus();
  for (let i = 0; i < 6 && !(await word.evaluate((one) => one === document.activeElement)); i += 1) await page.keyboard.press('Tab');
  await expect(word).toBeFocused();
  await expect.poll(() => page.locator('.stage .aside').count()).toBeGreaterThan(5);
  await page.keyboard.press('Enter');
  await expect.poll(() => inSight(page, '.rows [data-row=brake]')).toBeGreaterThan(20);
  // The date of the strip comes before its pins.
  const order = await page.locator('.stage [role=slider]').evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
  expect(order[0]).toBe('Date');
});

test('each texture of the ribbon that is seen has its name once, that of the chosen day stands out, and no word hides a stretch', async ({ page }) => {
  await open(page);
  const seen = () =>
    page.locator('.stage svg.rows').evaluate((svg) => {
      const all = <Part extends SVGGraphicsElement>(what: string) => [...svg.querySelectorAll<Part>(`[data-row=brake] ${what}`)];
      const stretches = all<SVGRectElement>('.stretch');
      const patches = all<SVGRectElement>('.patch').map((one) => one.getBBox());
      return {
        textures: new Set(stretches.map((one) => one.style.fill)).size,
        words: all<SVGTextElement>('.word:not(.of-twin)').map((one) => one.textContent),
        now: all<SVGTextElement>('.word.now').map((one) => one.textContent),
        hidden: stretches.map((one) => one.getBBox()).filter(({ x, y, width }) => patches.some((patch) => patch.y > y && patch.x < x + width && patch.x + patch.width > x && patch.width > width * 0.51)).length,
      };
    });
  for (let day = 43; day < 60; day += 4) {
    const { textures, words, now, hidden } = await seen();
    expect([words.length, new Set(words).size, now.length, hidden]).toEqual([textures, textures, 1, 0]);
    for (let i = 0; i < 4; i += 1) await date(page).press('ArrowRight');
  }
  // Story and ribbon have the same word for it.
  const words = page.locator('.stage [data-row=brake] .word');
  await expect(words.filter({ hasText: /^cold$/ })).toHaveCount(1);
  await expect(words.filter({ hasText: 'warmth' })).toHaveCount(0);
});

/** Lines of the told part that lie on one another. */
const overlaid = (page: Page) =>
  page.locator('.told').evaluate((told) => {
    const lines: { words: string; box: DOMRect }[] = [];
    const walker = document.createTreeWalker(told, NodeFilter.SHOW_TEXT);
    const range = document.createRange();
    while (walker.nextNode()) {
      const { currentNode: node } = walker;
      const words = node.textContent?.trim();
      if (!words || node.parentElement?.closest('.spoken')) continue;
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) if (box.width > 1) lines.push({ words, box });
    }
    // Boxes of letters are a little higher than their lines: those of two lines touch.
    const inner = ({ top, height }: DOMRect) => [top + height / 5, top + (height * 4) / 5] as const;
    return lines.flatMap((one, i) =>
      lines.slice(i + 1).flatMap((other) => {
        const [[top, bottom], [otherTop, otherBottom]] = [inner(one.box), inner(other.box)];
        const beside = one.box.right <= other.box.left + 1 || other.box.right <= one.box.left + 1;
        return beside || bottom <= otherTop || otherBottom <= top ? [] : [`${one.words} | ${other.words}`];
      }),
    );
  });

for (const [width, height] of [[390, 844], [360, 740], [1280, 500]] as const) {
  test(`no line of what is told lies on another, in brief and whole, at ${width} by ${height}`, async ({ page }) => {
    await page.setViewportSize({ width, height });
    await open(page);
    for (const size of ['100%', '200%']) {
      await letters(page, size);
      for (const [button, day] of [['More of the day', '2012-06-25'], ['Less of the day', '2012-06-18']] as const) {
        expect(await overlaid(page), `${size}, ${button} to come`).toEqual([]);
        await page.getByRole('button', { name: button }).click();
        await page.locator('.chooser input').fill(day);
        await expect(story(page)).toContainText(`${Number(day.slice(8))} June`);
        expect(await overlaid(page), `${size}, after ${button}`).toEqual([]);
      }
    }
  });
}

test.describe('on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });

  test('story, cut and the top of the season are the first screen; a frame opens when it is tapped', async ({ page }) => {
    await open(page);
    await expect(story(page)).toContainText(/bees \([\d,]+ to [\d,]+\)/);
    await expect.poll(() => inSight(page, '.hive figure')).toBeGreaterThan(200);
    expect(await inSight(page, '.stage')).toBeGreaterThan(100);
    const taken = page.getByRole('region', { name: 'A frame taken out' });
    await expect(taken).toHaveCount(0);
    const frame = page.getByRole('button', { name: /lower deep, frame 4/ });
    await frame.tap();
    await expect(taken.getByText(/Lower deep, frame 4/)).toBeVisible();
    await frame.tap();
    await expect(taken).toHaveCount(0);
    await page.getByRole('button', { name: 'More of the day' }).tap();
    await expect(story(page)).toContainText('of sugar a day');
  });

  test('over the controls the day, its bees and the ribbon stay in sight', async ({ page }) => {
    await open(page);
    await page.getByRole('button', { name: 'Change something' }).tap();
    const glance = page.locator('#change .glance');
    await page.getByRole('checkbox', { name: /Make it rain/ }).scrollIntoViewIfNeeded();
    await expect(glance).toBeInViewport({ ratio: 1 });
    await expect(glance).toContainText('Mon 11 June');
    await expect(glance.locator('text', { hasText: 'thin: without feed' })).toHaveCount(1);
    const ribbon = () => glance.locator('svg').innerHTML();
    const before = await ribbon();
    await page.getByRole('checkbox', { name: /Make it rain/ }).uncheck();
    await expect.poll(ribbon).not.toBe(before);
  });

  test('held sideways it has hive and season, and the sheet its boxes and words', async ({ page }) => {
    await page.setViewportSize({ width: 844, height: 390 });
    await open(page);
    await expect.poll(() => inSight(page, '.hive figure')).toBeGreaterThan(100);
    await expect.poll(() => inSight(page, '.tab')).toBeGreaterThan(15);
    await page.goto('./#/visit');
    await expect(page.locator('.tools')).toBeVisible();
    await page.locator('.combs').evaluate((one) => one.scrollIntoView());
    expect(await inSight(page, '.combs .stage')).toBeGreaterThan(100);
    expect(await inSight(page, '.tools')).toBeGreaterThan(150);
    expect(await sideways(page)).toBe(0);
  });
});

test('in large type the short story keeps what holds her back, and the ribbon is on the screen', async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await open(page);
  await page.getByRole('button', { name: 'Large type' }).click();
  await expect(story(page)).toContainText('held back by too few nurse bees');
  await expect.poll(() => inSight(page, '.rows [data-row=brake]')).toBeGreaterThan(30);
});

test('a hive is added with its name and start, the yard is put in order, and another hive is laid over the open one', async ({ page }) => {
  await open(page);
  await page.goto('./#/yard');
  const add = async (name: string, start: string) => {
    await page.getByLabel('called').fill(name);
    await page.getByLabel('starting on').fill(start);
    await page.getByRole('button', { name: 'Add it' }).click();
    await expect(page.getByRole('button', { name: `Open ${name}` })).toBeVisible();
  };
  await add('Hive 12', '2012-05-05');
  await add('Hive 3', '2014-05-01');
  const rows = page.locator('tbody tr:not(.actions, .below)');
  await expect(page.locator('tbody .about').filter({ hasText: ', 5 May 2012' })).toHaveCount(1);
  await expect(page.locator('tbody .about').filter({ hasText: '12 June' })).toHaveCount(1);
  await page.getByLabel('In order of').selectOption('name');
  await expect.poll(() => rows.locator('.name').allTextContents()).toEqual([expect.stringContaining('A package'), 'Hive 3', 'Hive 12']);
  await expect(page.getByText(/^Bees in them: [\d,]+ to [\d,]+; in the middle of them [\d,]+\.$/)).toBeVisible();
  await page.getByRole('button', { name: /^Open A package/ }).click();
  await changing(page);
  // The one of another year has no day in common with it.
  const which = page.getByRole('combobox', { name: 'Which hive' });
  await expect(which.locator('option:not([disabled])')).toHaveText(['Hive 12']);
  await page.getByRole('radio', { name: 'another hive' }).check();
  await expect(page.getByRole('columnheader', { name: 'in “Hive 12”' })).toBeVisible();
  await expect(page.locator('.stage svg .twin').first()).toBeAttached();
});

test('nothing that stands is moved by what comes later', async ({ page }) => {
  // What the open standard for layout instability counts as good: less than a tenth.
  await page.addInitScript(() => {
    const seen = { moved: 0 };
    Object.assign(globalThis, { seen });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) seen.moved += (entry as PerformanceEntry & { value: number }).value;
    }).observe({ type: 'layout-shift', buffered: true });
  });
  await open(page);
  const moved = () => page.evaluate(() => (globalThis as unknown as { seen: { moved: number } }).seen.moved);
  expect(await moved()).toBeLessThan(0.1);
  // The counter is no blind one.
  await page.evaluate(() => {
    const wedge = document.createElement('div');
    wedge.style.height = '300px';
    document.querySelector('main')?.prepend(wedge);
  });
  await expect.poll(moved).toBeGreaterThan(0.1);
});
