/*
 * Lets the pages open without a network. What it keeps is the program: the files of the pages, the sounds of the
 * piano and the usual forms and hand shapes. Of what the server says of takes it keeps nothing, unless the user has chosen on the first page to keep the
 * takes that are opened in this browser: then the cache TAKES exists. Signing out, an ended session and whatever is
 * deleted clear it.
 */
const FILES = [
  /* files */
];
/** What an installed page shows outside of its window. */
const SIGNS = [
  "/manifest.webmanifest",
  "/icon.svg",
  "/icon-192.png",
  "/icon-512.png",
  "/icon-maskable-512.png",
];
const PROGRAM = "ledgerline-program";
const TAKES = "ledgerline-takes";

/** What a take's page and the list of takes read; links that were made and sound recordings are not kept. */
const OF_TAKES =
  /^\/api\/(takes|forms|players|shapes|shapes\/built-in)$|^\/api\/takes\/[^/]+(\/(?!shares|sound).*)?$/;

/** What is the same for everybody, and of no pupil: with it somebody records without a network. */
const OF_NOBODY = /^\/api\/(forms|shapes\/built-in)$/;

/** What somebody signs in and out by. */
const SESSION = "/api/session";

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(PROGRAM)
      .then((cache) => cache.addAll(["/", ...SIGNS, ...FILES.filter((name) => name !== "/index.html")]))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(Promise.all([forgetOlder(), forgetOldFiles()]).then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (url.pathname.startsWith("/api/")) {
    if (request.method !== "GET") event.respondWith(changed(request, url.pathname));
    else if (OF_NOBODY.test(url.pathname)) event.respondWith(fetchedOrKept(request));
    else if (OF_TAKES.test(url.pathname)) event.respondWith(takeOrKept(request));
  } else if (request.method !== "GET") return;
  else if (url.pathname.startsWith("/assets/") || url.pathname.startsWith("/piano/")) {
    event.respondWith(keptOrFetched(request));
  } else if (url.pathname === "/" || SIGNS.includes(url.pathname)) event.respondWith(fetchedOrKept(request));
});

/** Caches of earlier versions, which kept all that was read. */
async function forgetOlder() {
  for (const name of await caches.keys()) {
    if (name.startsWith("ledgerline-") && name !== PROGRAM && name !== TAKES) await caches.delete(name);
  }
}

async function forgetOldFiles() {
  const cache = await caches.open(PROGRAM);
  const known = new Set([...FILES, "/", ...SIGNS]);
  for (const request of await cache.keys()) {
    const path = new URL(request.url).pathname;
    if (path.startsWith("/assets/") && !known.has(path)) await cache.delete(request);
  }
}

/** Sends a change. Whoever signs in or out leaves nothing to the next one; what is deleted is not kept here either. */
async function changed(request, path) {
  const { method } = request;
  if (path === SESSION) await caches.delete(TAKES);
  const answer = await fetch(request);
  if (method === "DELETE" && path !== SESSION && (await caches.delete(TAKES))) await caches.open(TAKES);
  return answer;
}

async function takeOrKept(request) {
  const keeps = await caches.has(TAKES);
  try {
    const answer = await fetch(request);
    if (answer.status === 401) await caches.delete(TAKES);
    // Asked again, since the choice may have been taken back, or something deleted, while the answer came.
    else if (answer.ok && keeps && (await caches.has(TAKES))) {
      await (await caches.open(TAKES)).put(request, answer.clone());
    }
    return answer;
  } catch (error) {
    const kept = keeps ? await (await caches.open(TAKES)).match(request) : undefined;
    if (kept) return kept;
    throw error;
  }
}

async function fetchedOrKept(request) {
  const cache = await caches.open(PROGRAM);
  try {
    const answer = await fetch(request);
    if (answer.ok) await cache.put(request, answer.clone());
    return answer;
  } catch (error) {
    const kept = await cache.match(request);
    if (kept) return kept;
    throw error;
  }
}

async function keptOrFetched(request) {
  const cache = await caches.open(PROGRAM);
  const kept = await cache.match(request);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) await cache.put(request, answer.clone());
  return answer;
}
