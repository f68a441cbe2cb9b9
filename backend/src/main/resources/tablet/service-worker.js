// BUILD and FILES stand above, written by the server.

const CACHE = `tankround-${BUILD}`;
const PAGE = "/tablet/page";
const KEPT = new Set(FILES);
/** What the server makes, and the device can show too where it does not answer soon. */
const HERE_TOO = /^\/(emergencies|rounds\/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}\/load)$/;
const PATIENCE_MS = 2500;
const AT_THE_TANK = /^\/(day|visits\/(for-stop\/)?[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12})$/;

self.addEventListener("install", (event) => {
  event.waitUntil(
    (async () => {
      const cache = await caches.open(CACHE);
      await cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" })));
    })(),
  );
});

// Only what was fetched from the server is thrown away here; what a person entered lies elsewhere.
self.addEventListener("activate", (event) => {
  event.waitUntil(
    (async () => {
      const names = await caches.keys();
      await Promise.all(names.filter((name) => name.startsWith("tankround-") && name !== CACHE).map((name) => caches.delete(name)));
      await self.clients.claim();
    })(),
  );
});

// A person has said that the newer pages may be taken.
self.addEventListener("message", (event) => {
  if (event.data === "take-over") {
    void self.skipWaiting();
  }
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) {
    return;
  }
  if (request.mode === "navigate") {
    if (AT_THE_TANK.test(url.pathname)) {
      event.respondWith(kept(PAGE, request));
    } else if (HERE_TOO.test(url.pathname) && !url.searchParams.has("wait")) {
      event.respondWith(soon(request));
    } else {
      event.respondWith(fetch(request).catch(() => kept(PAGE, request)));
    }
  } else if (KEPT.has(url.pathname)) {
    event.respondWith(kept(url.pathname, request));
  }
});

async function kept(file, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(file)) ?? fetch(request);
}

/** Whoever stands before an emergency does not wait for a bad signal. */
function soon(request) {
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS)).then(() => kept(PAGE, request));
  return Promise.race([fetch(request).catch(() => kept(PAGE, request)), late]);
}
