// @ts-check
/// <reference lib="webworker" />
/** Opens the page at the rack without a network: what was shown last is kept, the newest comes first. */

const KEPT = "topheavy-rack-1";
const PATIENCE_MS = 4000;
const self_ = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

self_.addEventListener("install", () => {
  self_.skipWaiting();
});

self_.addEventListener("activate", (event) => {
  event.waitUntil(clean().then(() => self_.clients.claim()));
});

self_.addEventListener("message", (event) => {
  const list = event.data?.keep;
  if (Array.isArray(list)) event.waitUntil(Promise.allSettled(list.map((path) => fetched(new Request(path)))));
});

self_.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const page = request.mode === "navigate" && url.pathname === "/rack";
  const file = url.pathname.startsWith("/static/");
  if (request.method !== "GET" || url.origin !== location.origin || !(page || file)) return;
  event.respondWith(newest(request));
});

async function clean() {
  for (const name of await caches.keys()) {
    if (name.startsWith("topheavy-rack-") && name !== KEPT) await caches.delete(name);
  }
}

/** Ask the server, and keep a good answer. @param {Request} request */
async function fetched(request) {
  const answer = await fetch(request);
  if (answer.ok && answer.type === "basic" && !answer.redirected) {
    const shelf = await caches.open(KEPT);
    await shelf.put(request.url, answer.clone());
  }
  return answer;
}

/** The newest, or what was kept when the server does not answer. @param {Request} request */
async function newest(request) {
  const shelf = await caches.open(KEPT);
  const kept = await shelf.match(request.url, { ignoreVary: true });
  const asked = fetched(request);
  if (!kept) return asked;
  asked.catch(() => undefined);
  const late = new Promise((done) => setTimeout(() => done(kept), PATIENCE_MS));
  return Promise.race([asked.catch(() => kept), late]);
}
