/**
 * How long a changed slider takes until the page is redrawn, in Chromium: `npm run bench`, with the page built.
 * Prints milliseconds; nothing here passes or fails.
 */
import { chromium } from '@playwright/test';
import { preview } from 'vite';

const CHANGES = 200;
const server = await preview({ root: new URL('..', import.meta.url).pathname, preview: { host: '127.0.0.1', port: 0 } });
const address = server.httpServer.address();
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(`http://127.0.0.1:${address.port}/`);
  await page.locator('h1').waitFor();
  const times = await page.evaluate(async (changes) => {
    const slider = document.querySelector('input[type=range]');
    const frame = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    const times = [];
    for (let i = 0; i < changes; i += 1) {
      performance.clearMeasures();
      slider.value = String(1 + (i % 20) * 0.05);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      let measured;
      while (!(measured = performance.getEntriesByName('combcast: change to redrawn')[0])) await frame();
      times.push(measured.duration);
      await frame();
    }
    return times;
  }, CHANGES);
  times.sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1);
  console.log(`change to redrawn, ${CHANGES} changes of the first slider, plan and twin: median ${at(0.5)} ms, 95 of 100 below ${at(0.95)} ms, worst ${at(1)} ms`);
} finally {
  await browser.close();
  await server.close();
}
