/**
 * The built page opened in Chromium on a phone's screen, and what came until its first season was drawn and its story told.
 */
import { existsSync } from 'node:fs';
import { chromium, devices } from '@playwright/test';
import { preview } from 'vite';

const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** Runs in the page before anything else of it: notes when the season and its story are on the screen. */
function watch() {
  const seen = new MutationObserver(() => {
    if (!document.querySelector('.season svg path') || !document.querySelector('.told h1')) return;
    seen.disconnect();
    // The first task after that frame, whatever else waits.
    const mark = () => performance.mark('opened');
    requestAnimationFrame(() => scheduler.postTask(mark, { priority: 'user-blocking' }));
  });
  seen.observe(document, { childList: true, subtree: true });
}

/** Whether there is a browser to open it in. */
export function canOpen() {
  return existsSync(executablePath);
}

/** Does `work` with the served page's address and a browser that has never seen it. */
export async function withPage(work) {
  const server = await preview({ root: new URL('..', import.meta.url).pathname, preview: { host: '127.0.0.1', port: 0 } });
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    return await work(`http://127.0.0.1:${server.httpServer.address().port}/`, await browser.newContext(devices['Pixel 7']));
  } finally {
    await browser.close();
    await server.close();
  }
}

/** Opens the page; gives the milliseconds from the start of the navigation, and the names of the files that came until then. */
export async function opened(page, address) {
  const requests = [];
  page.on('requestfinished', (request) => requests.push(request));
  await page.addInitScript(watch);
  await page.goto(address, { waitUntil: 'commit' });
  await page.waitForFunction(() => performance.getEntriesByName('opened').length > 0);
  const { ms, at } = await page.evaluate(() => {
    const ms = performance.getEntriesByName('opened')[0].startTime;
    return { ms, at: performance.timeOrigin + ms };
  });
  const came = requests.filter((request) => request.timing().startTime + request.timing().responseEnd <= at);
  return { ms, files: new Set(came.map((request) => request.url().slice(address.length) || 'index.html')) };
}
