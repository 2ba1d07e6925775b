import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { test as base, expect, type Page } from '@playwright/test';

export { expect };

/** Every test fails on an error in the console or on a request to anywhere else. */
export const test = base.extend<{ quiet: void }>({
  quiet: [
    async ({ page, baseURL }, use) => {
      const faults: string[] = [];
      page.on('pageerror', (error) => faults.push(error.message));
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
      });
      page.on('request', (request) => {
        const url = request.url();
        if (!url.startsWith(baseURL ?? '') && !/^(data|blob):/.test(url)) faults.push(`request to ${url}`);
      });
      await use();
      expect(faults).toEqual([]);
    },
    { auto: true },
  ],
});

export const isPhone = (page: Page): boolean => (page.viewportSize()?.width ?? 0) < 720;

export async function open(page: Page): Promise<void> {
  await page.goto('./');
  await expect(story(page)).toContainText('day 43');
  // What lies below the first screen, and the controls, come after it.
  await expect(page.locator('section.searched')).toBeAttached();
  await expect(page.locator('#change input').first()).toBeAttached();
  // The last to come; lines that break anew for it move what is below: a click must not fall between.
  await expect(page.locator('section.likely :is([aria-busy="false"], .problem)').first()).toBeAttached();
}

export const story = (page: Page) => page.locator('h1');

/** The story without the ranges of the members and the combs of the drawing, which come a moment later. */
export const told = async (page: Page): Promise<string> =>
  story(page).evaluate((one) => {
    const alone = one.cloneNode(true) as HTMLElement;
    for (const range of alone.querySelectorAll('.range')) range.remove();
    return alone.textContent ?? '';
  });

/** Waits until this text is kept on the device: a reload in the same moment would be faster than the storage. */
export async function kept(page: Page, text: string): Promise<void> {
  const stored = () =>
    page.evaluate(async () => {
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open('combcast');
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
      const all = await Promise.all(
        [...db.objectStoreNames].map(
          (name) =>
            new Promise<unknown>((resolve) => {
              const request = db.transaction(name).objectStore(name).getAll();
              request.onsuccess = () => resolve(request.result);
              request.onerror = () => resolve(null);
            }),
        ),
      );
      db.close();
      return JSON.stringify(all);
    });
  await expect.poll(stored).toContain(JSON.stringify(text).slice(1, -1));
}

/** Waits until nothing of the hives is on its way to storage. */
export async function allKept(page: Page): Promise<void> {
  await expect(page.locator('[data-keeping]')).toHaveCount(0);
}

/** Comes again, as a person would: not in the very moment of a change, when storage may be slower. */
export async function reload(page: Page): Promise<void> {
  await allKept(page);
  await page.reload();
}

export const date = (page: Page) => page.getByRole('slider', { name: 'Date' });

/** Opens the controls. */
export async function changing(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Change something' }).click();
}

/** A row of the comparison: the plan, and its twin. */
export async function compared(page: Page, row: string): Promise<[number, number]> {
  const cells = page
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: row, exact: true }) })
    .getByRole('cell');
  await cells.first().waitFor();
  const numbers = (await cells.allTextContents()).map((text) =>
    Number(text.replaceAll(',', '').replace('½', '.5').replace(/^\.5/, '0.5')),
  );
  // A week before, the day, a week after, the twin.
  return [numbers[1] ?? Number.NaN, numbers[3] ?? Number.NaN];
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What the accessibility checker finds, in short. */
export async function accessFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const checker = (globalThis as unknown as { axe: typeof import('axe-core') }).axe;
    const { violations } = await checker.run();
    return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`));
  });
}
