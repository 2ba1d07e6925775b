/**
 * How long a changed slider takes, from its input event until the season is redrawn (in the document: the browser paints it
 * after that), how long the bands of 200 colonies take after it, and the
 * verdict on the demo hive's visits, in Chromium: `npm run bench`, with the page built.
 * Prints milliseconds; nothing here passes or fails.
 */
import { chromium } from '@playwright/test';
import { preview } from 'vite';

const CHANGES = 200;
/** Most milliseconds that a change should take in the mean. */
const BUDGET = 16;
const server = await preview({ root: new URL('..', import.meta.url).pathname, preview: { host: '127.0.0.1', port: 0 } });
const address = server.httpServer.address();
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(`http://127.0.0.1:${address.port}/`);
  // The controls come after the first screen, and stay hidden here.
  await page.locator('input[type=range]').first().waitFor({ state: 'attached' });
  const times = await page.evaluate(async (changes) => {
    const slider = document.querySelector('input[type=range]');
    const frame = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    const times = [];
    for (let i = 0; i < changes; i += 1) {
      performance.clearMeasures();
      slider.value = String(1 + (i % 20) * 0.05);
      const began = performance.now();
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      let measured;
      while (!(measured = performance.getEntriesByName('combcast: change to redrawn')[0])) await frame();
      times.push(measured.startTime + measured.duration - began);
      await frame();
    }
    return times;
  }, CHANGES);
  times.sort((a, b) => a - b);
  const mean = times.reduce((sum, time) => sum + time, 0) / times.length;
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1);
  console.log(
    `input event to season redrawn, ${CHANGES} changes of the first slider, plan and twin: mean ${mean.toFixed(1)} ms, ${mean <= BUDGET ? 'within' : 'OVER'} the budget of ${BUDGET} ms; median ${at(0.5)} ms, 95 of 100 below ${at(0.95)} ms, worst ${at(1)} ms`,
  );

  // Bands after a change, the workers being there already.
  const bands = await page.evaluate(async (changes) => {
    const slider = document.querySelector('input[type=range]');
    const name = 'combcast: bands of the members';
    const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
    const times = [];
    await wait(1500);
    for (let i = 0; i < changes; i += 1) {
      performance.clearMeasures();
      slider.value = String(1 + (i % 20) * 0.05);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      while (performance.getEntriesByName(name).length === 0) await wait(5);
      times.push(performance.getEntriesByName(name)[0].duration);
    }
    return { times, cores: navigator.hardwareConcurrency };
  }, 40);
  bands.times.sort((a, b) => a - b);
  const part = (share) => bands.times[Math.min(bands.times.length - 1, Math.floor(share * bands.times.length))].toFixed(0);
  console.log(`season to bands of 200 members, ${bands.times.length} changes, ${bands.cores} cores: median ${part(0.5)} ms, 95 of 100 below ${part(0.95)} ms, worst ${part(1)} ms`);

  await page.getByRole('button', { name: /demo hive/ }).click();
  await page.getByText('Worked out from 2,000 colonies').waitFor();
  const verdicts = await page.evaluate(() => performance.getEntriesByType('measure').filter(({ name }) => name.startsWith('combcast: verdict')));
  for (const { name, duration } of verdicts) console.log(`${name.replace('combcast: ', '')} members, the demo hive's six visits: after ${duration.toFixed(0)} ms`);
} finally {
  await browser.close();
  await server.close();
}
