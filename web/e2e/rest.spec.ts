// The rest of the model, which comes after the first season (src/rest.ts).
import type { Page } from '@playwright/test';
import { allKept, changing, expect, open, reload, story, test, told } from './page';

const REST = '**/sim_wasm_rest*';
const notFetched = (page: Page) => page.getByText('A part of the model could not be fetched').first();

/** What comes of it where the first two workers, those of the season and the combs, bring the rest as a call in the middle does. */
function broughtNow(page: Page): Promise<string[]> {
  const bring = () => {
    try {
      (globalThis as unknown as { combcastBringRest: () => void }).combcastBringRest();
      return 'brought';
    } catch (fault) {
      return String(fault);
    }
  };
  return Promise.all(page.workers().slice(0, 2).map((worker) => worker.evaluate(bring)));
}

async function startWithNuc(page: Page): Promise<void> {
  await changing(page);
  await page.getByLabel('With', { exact: true }).selectOption('nuc');
}

test.describe('on the first visit', () => {
  // What a service worker fetches cannot be refused here; what is refused is told on the console.
  test.use({ serviceWorkers: 'block', quiet: async ({}, use) => use() });

  test('the first screen stands without it, what needs it says so, and has it when it can be had', async ({ page, context }) => {
    await context.route(REST, (route) => route.abort());
    await open(page);
    await expect(page.locator('section.hive svg').first()).toBeVisible();
    await expect(page.locator('.season svg path').first()).toBeAttached();
    await expect(notFetched(page)).toBeAttached();
    await expect(page.locator('.fatal')).toHaveCount(0);
    await context.unroute(REST);
    await changing(page);
    await page.getByRole('textbox', { name: 'Weight of bees' }).fill('2');
    await expect(notFetched(page)).toHaveCount(0);
    await expect(page.locator('.likely h2')).toBeAttached();
  });

  test('another season waits for it, and where it does not come the one before stays', async ({ page, context }) => {
    await context.route(REST, (route) => route.abort());
    await open(page);
    const before = await told(page);
    await startWithNuc(page);
    // Over the season, or in the head of a phone's drawer that covers it.
    await expect(page.locator('p.problem[role=status]').first()).toContainText('A part of the model could not be fetched');
    expect(await told(page)).toBe(before);
    await context.unroute(REST);
    await page.getByRole('textbox', { name: 'Honey' }).first().fill('5');
    await expect.poll(() => told(page)).not.toBe(before);
    await expect(page.locator('.problem, .fatal')).toHaveCount(0);
  });

  test('a call that is under way brings it', async ({ page, context }) => {
    await context.route(REST, (route) => (route.request().resourceType() === 'fetch' ? route.abort() : route.continue()));
    await open(page);
    expect(await broughtNow(page)).toEqual(['brought', 'brought']);
    const before = await told(page);
    await startWithNuc(page);
    await expect.poll(() => told(page)).not.toBe(before);
  });
});

test('without a network it comes from the device, also in the middle of a call', async ({ page, context }) => {
  await open(page);
  await expect(page.getByText('it opens without a network')).toBeVisible();
  await startWithNuc(page);
  await allKept(page);
  await context.setOffline(true);
  await reload(page);
  await expect(story(page)).toContainText('day 43');
  await expect(page.locator('section.hive svg').first()).toBeVisible();
  expect(await broughtNow(page)).toEqual(['brought', 'brought']);
  await expect(page.locator('.problem, .fatal')).toHaveCount(0);
});
