/**
 * The page kept on the device: after one visit it opens without a network.
 */
export const offline = $state({ ready: false });

/** Hands the page to its service worker. Where there is none, the page works with a network only. */
export async function keepOffline(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  try {
    await navigator.serviceWorker.register('./sw.js');
    await navigator.serviceWorker.ready;
    offline.ready = true;
  } catch {
    // Forbidden, or served without the file: nothing is lost but this.
  }
}
