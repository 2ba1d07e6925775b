/**
 * How long the page takes to open on a mid phone: from the start of the navigation to the first season drawn and its story
 * told, in Chromium with a phone's screen and a quarter of this machine's speed, everything kept by the service worker.
 * And what the visit before brought over the line. With the page built: `npm run bench`. Prints; nothing here passes or fails.
 */
import { opened, withPage } from './opening.mjs';
import { saidOfAll, saidOfFirst } from './transfer.mjs';

const OPENINGS = 15;
const SLOWER = 4;
const TAB_MS = 1500;
/** Most milliseconds that it should take. */
const BUDGET = 1500;

const { files, times } = await withPage(async (address, context) => {
  const first = await context.newPage();
  const { files } = await opened(first, address);
  await first.getByText('it opens without a network').waitFor();
  await first.waitForTimeout(2000);
  await first.close();
  await context.setOffline(true);
  const times = [];
  for (let i = 0; i < OPENINGS; i += 1) {
    const page = await context.newPage();
    const devtools = await context.newCDPSession(page);
    // The browser loads parts of its own for a new tab: they are not the page's.
    await page.waitForTimeout(TAB_MS);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    times.push((await opened(page, address)).ms);
    await page.close();
  }
  return { files, times };
});
times.sort((a, b) => a - b);
const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(0);
const word = times[Math.floor(times.length / 2)] <= BUDGET ? 'within' : 'OVER';
console.log(
  `opened to the first season and its story, phone, ${SLOWER} times slower, no network, ${OPENINGS} times: median ${at(0.5)} ms, best ${at(0)} ms, worst ${at(1)} ms; ${word} the budget of ${BUDGET} ms`,
);
console.log(`the visit before it brought ${saidOfFirst(files)}; ${saidOfAll()}`);
