// The rest of the model, which comes after the first season (src/rest.ts).
import type { Page } from '@playwright/test';
import { allKept, changing, expect, open, reload, story, test } from './page';

const REST = '**/sim_wasm_rest*';
const notFetched = (page: Page) => page.getByText('A part of the model could not be fetched').first();

/** How the rest was asked for: by `fetch`, or in the middle of a call, by `xhr`. */
function asked(page: Page): string[] {
  const ways: string[] = [];
  page.on('request', (request) => {
    if (/sim_wasm_rest/.test(request.url())) ways.push(request.resourceType());
  });
  return ways;
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

  test('a season that needs it has it in the middle of its call', async ({ page, context }) => {
    await context.route(REST, (route) => (route.request().resourceType() === 'fetch' ? route.abort() : route.continue()));
    const ways = asked(page);
    await open(page);
    const before = await story(page).textContent();
    await startWithNuc(page);
    await expect(story(page)).not.toHaveText(before ?? '');
    expect(ways).toContain('xhr');
    await expect(page.locator('.problem:not(:has-text("could not be fetched")), .fatal')).toHaveCount(0);
  });

  test('where that fails too the page says that the model could not be loaded', async ({ page, context }) => {
    await context.route(REST, (route) => route.abort());
    await open(page);
    await startWithNuc(page);
    await expect(page.locator('.fatal')).toContainText('could not be loaded');
  });
});

test('without a network it comes from the device, also in the middle of a call', async ({ page, context }) => {
  await open(page);
  await expect(page.getByText('it opens without a network')).toBeVisible();
  await startWithNuc(page);
  await allKept(page);
  await context.setOffline(true);
  const ways = asked(page);
  await reload(page);
  await expect(story(page)).toContainText('day 43');
  await expect(page.locator('section.hive svg').first()).toBeVisible();
  // The combs of a nuc need it before anything else has fetched it for their worker.
  expect(ways).toContain('xhr');
  await expect(page.locator('.problem, .fatal')).toHaveCount(0);
});
