// Keeps the whole app in the browser, so that it opens and works with the network and the server gone. Data is not its business: /api is never cached.
self.importScripts('./service-worker-assets.js');

const prefix = 'rootgap-';
const name = prefix + self.assetsManifest.version;
const base = new URL('./', self.location);
const isNeeded = asset => /\.(dll|wasm|html|js|json|css|png|svg|webmanifest|dat|woff2?|ttf)$/.test(asset.url) && asset.url !== 'service-worker.js';
const kept = self.assetsManifest.assets.filter(isNeeded);
// What the first page does not need follows when the page is at rest, or when it is asked for.
const isLater = asset => /^js\/(model\.js$|help\.json$|pdf-paper\.js$|pdf\/)|^_framework\/SharpGLTF\.Core\./.test(asset.url);
const request = asset => new Request(asset.url, { integrity: asset.hash, cache: 'no-cache' });
const addresses = new Set(kept.map(asset => new URL(asset.url, base).href));

self.addEventListener('install', event => event.waitUntil((async () => {
  const cache = await caches.open(name);
  // The page has just fetched most of them: the browser's own cache gives them, checked by their hash.
  await cache.addAll(kept.filter(asset => !isLater(asset)).map(request));
})()));

self.addEventListener('message', event => {
  if (event.data !== 'rest') return;
  event.waitUntil((async () => {
    const cache = await caches.open(name);
    for (const asset of kept.filter(isLater))
      // What cannot be had now, as when the network goes meanwhile, comes at the next rest.
      if (!await cache.match(new URL(asset.url, base).href)) await cache.add(request(asset)).catch(() => {});
  })());
});

self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const key of await caches.keys())
    if (key.startsWith(prefix) && key !== name) await caches.delete(key);
  await self.clients.claim();
})()));

self.addEventListener('fetch', event => {
  if (event.request.method !== 'GET') return;
  const address = new URL(event.request.url);
  if (address.origin !== base.origin || address.pathname.startsWith(base.pathname + 'api/') || address.pathname === base.pathname + 'licences.txt') return;
  event.respondWith((async () => {
    const cache = await caches.open(name);
    const isPage = event.request.mode === 'navigate' && !addresses.has(address.href);
    return await cache.match(isPage ? new URL('index.html', base).href : event.request, { ignoreSearch: true }) ?? fetch(event.request);
  })());
});
