/**
 * The page kept on the device: after one visit it opens without a network, and a newer version is taken when
 * somebody says so.
 */
export const offline = $state({
  ready: false,
  /** A newer version lies on the device, and has not been taken yet. */
  newer: false,
});

/** A page that stays open asks for a newer version after this long, ms. */
const ASK_EVERY = 3_600_000;

let registration: ServiceWorkerRegistration | null = null;

/** Hands the page to its service worker. Where there is none, the page works with a network only. */
export async function keepOffline(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  try {
    registration = await navigator.serviceWorker.register('./sw.js');
    follow(registration);
    await navigator.serviceWorker.ready;
    offline.ready = true;
  } catch {
    // Forbidden, or served without the file: nothing is lost but this.
  }
}

function follow(registration: ServiceWorkerRegistration): void {
  // Without a controller this is the first version, which nobody has to take.
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) offline.newer = true;
  };
  offer();
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', offer));
  let asked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || Date.now() - asked < ASK_EVERY) return;
    asked = Date.now();
    // Without a network there is nothing newer to be had.
    registration.update().catch(() => {});
  });
}

/** Loads the newer version, after all that was typed has been `kept`. */
export async function takeNewer(kept: Promise<void>): Promise<void> {
  await kept;
  const { waiting } = registration ?? {};
  // Taken in another tab already: this one is only behind.
  if (!waiting) return location.reload();
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waiting.postMessage('take over');
}
