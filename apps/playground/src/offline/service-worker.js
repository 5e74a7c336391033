// Keeps one whole copy of the page for use without a network. The build fills in the two constants.
const COPY = 'underlap-__FINGERPRINT__';
const FILES = ['__FILES__'];

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(COPY)
      .then((cache) => cache.addAll(FILES))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener('activate', (event) => {
  // Old copies go only once the new one is whole, and only ours: other pages of the same host keep theirs.
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names.filter((name) => name.startsWith('underlap-') && name !== COPY).map((name) => caches.delete(name)),
        ),
      )
      .then(() => self.clients.claim()),
  );
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  // The page itself comes from the network while there is one, so that a new build is seen at once.
  const fresh = request.mode === 'navigate' ? fetch(request) : Promise.reject(new Error('kept files first'));
  event.respondWith(
    fresh.catch(async () => {
      const cache = await caches.open(COPY);
      // The copy is of one build and says all there is to say: a host that answers by origin (Vary) changes nothing about it.
      const kept = await cache.match(request, { ignoreSearch: request.mode === 'navigate', ignoreVary: true });
      return kept ?? fetch(request);
    }),
  );
});
