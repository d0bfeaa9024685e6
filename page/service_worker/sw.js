// Keeps the page's own files, so that a reload works while the network or the server is away. Answers of the lab are none of its business:
// the page keeps the last ones itself, with their dates.
const FILES = /* the files of the page, filled in by build/service_worker.mjs */ [];
const NAME = "heatwork-" + /* their hash */ "";
const LONGEST_WAIT_MS = 4000;

async function keepFiles() {
  const cache = await caches.open(NAME);
  await Promise.all(
    FILES.map(async (file) => {
      const answer = await fetch(file, { redirect: "error", cache: "no-cache" });
      if (!answer.ok) throw new Error(file);
      await cache.put(file, answer);
    }),
  );
}

async function dropOlder() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith("heatwork-") && name !== NAME).map((name) => caches.delete(name)));
}

async function pageOf(request) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), LONGEST_WAIT_MS);
  try {
    return await fetch(request, { signal: stop.signal });
  } catch {
    return (await (await caches.open(NAME)).match("/")) ?? Response.error();
  } finally {
    clearTimeout(timer);
  }
}

async function fileOf(request) {
  return (await (await caches.open(NAME)).match(request)) ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(keepFiles().then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(dropOlder().then(() => self.clients.claim())));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  if (pathname.startsWith("/api/") || pathname.startsWith("/sign-in") || pathname === "/health" || pathname === "/sw.js") return;
  if (request.mode === "navigate") event.respondWith(pageOf(request));
  else if (FILES.includes(pathname)) event.respondWith(fileOf(request));
});
