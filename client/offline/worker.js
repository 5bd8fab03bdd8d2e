/* Keeps the pages and what was last read from the server, so that they open without a network. */
const FILES = [
  /* files */
];
const SHELL = "ledgerline-shell-v1";
const READ = "ledgerline-read-v1";

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(SHELL)
      .then((cache) => cache.addAll(["/", "/icon.svg", ...FILES.filter((name) => name !== "/index.html")]))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .open(SHELL)
      .then(async (cache) => {
        const known = new Set([...FILES, "/", "/icon.svg"]);
        for (const request of await cache.keys()) {
          const path = new URL(request.url).pathname;
          if (path.startsWith("/assets/") && !known.has(path)) await cache.delete(request);
        }
      })
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (url.pathname.startsWith("/api/")) {
    if (!/\/events$|\/openapi|\/health|\/ready/.test(url.pathname)) event.respondWith(networkFirst(request));
  } else if (url.pathname.startsWith("/assets/") || url.pathname.startsWith("/piano/")) {
    event.respondWith(cacheFirst(request));
  } else event.respondWith(networkFirst(request, SHELL));
});

async function networkFirst(request, name = READ) {
  const cache = await caches.open(name);
  try {
    const answer = await fetch(request);
    if (answer.ok) cache.put(request, answer.clone());
    return answer;
  } catch (error) {
    const kept = await cache.match(request);
    if (kept) return kept;
    throw error;
  }
}

async function cacheFirst(request) {
  const kept = await caches.match(request);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) (await caches.open(SHELL)).put(request, answer.clone());
  return answer;
}
