/* The service worker: keeps the whole page on the device. `VERSION` and `FILES` are put before it by scripts/offline.mjs. */
/* global VERSION, FILES */
const { scope } = self.registration;
const MINE = `combcast ${scope} `;
const CACHE = MINE + VERSION;

self.addEventListener('install', (event) => {
  // Names under assets/ carry a digest of what is in them; the others are asked for anew.
  const requests = FILES.map((file) => new Request(file, { cache: file.startsWith('assets/') ? 'default' : 'no-cache' }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(requests)));
});

/* The other versions on this device, the last one first. */
const others = async () => (await caches.keys()).filter((name) => name.startsWith(MINE) && name !== CACHE).toReversed();

self.addEventListener('activate', (event) => {
  const tidy = async () => {
    // The version before stays: a tab may still have it open, and has not asked for all of its parts yet.
    for (const name of (await others()).slice(1)) await caches.delete(name);
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

/* A new version takes over when no tab has the old one open, or when somebody says so. */
self.addEventListener('message', ({ data }) => {
  if (data === 'take over') void self.skipWaiting();
});

/* Parts of two versions are never mixed: names under assets/ carry a digest, so an old page finds its own parts only. */
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(scope)) return;
  const answer = async () => {
    const path = request.url.slice(scope.length).replace(/[?#].*/, '');
    // What a server varies its answers by, often the origin, makes no difference to what is kept here.
    const like = { ignoreSearch: true, ignoreVary: true };
    const kept = await (await caches.open(CACHE)).match(path === '' ? 'index.html' : request, like);
    if (kept) return kept;
    for (const name of path.startsWith('assets/') ? await others() : []) {
      const old = await (await caches.open(name)).match(request, like);
      if (old) return old;
    }
    return fetch(request);
  };
  event.respondWith(answer());
});
