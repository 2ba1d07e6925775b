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

self.addEventListener('activate', (event) => {
  const tidy = async () => {
    for (const name of await caches.keys()) if (name.startsWith(MINE) && name !== CACHE) await caches.delete(name);
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

/* A new version takes over when no tab has the old one open: its parts are never mixed. */
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(scope)) return;
  const answer = async () => {
    const cache = await caches.open(CACHE);
    const path = request.url.slice(scope.length).replace(/[?#].*/, '');
    // Servers that say that an answer depends on who asks would make every kept file another one.
    const kept = await cache.match(path === '' ? 'index.html' : request, { ignoreSearch: true, ignoreVary: true });
    return kept ?? fetch(request);
  };
  event.respondWith(answer());
});
