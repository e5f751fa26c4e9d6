// Keeps the sheets that matter at the wall, and shows them when there is no signal, saying how old they are.
// VERSION and FILES are written above this line by the server. Nothing that is sent passes through here, but shared pictures.

import { PAGES, PICTURES, keepAll } from "/static/js/keeping.js";
import { PATIENCE, elsewhere, sheet, soon, whole } from "/static/js/reading.js";
import { shared } from "/static/js/sharing.js";
import * as store from "/static/js/store.js";

const SHELL = `studbay-files-${VERSION}`;

async function file(event) {
  const { request } = event;
  const shell = await caches.open(SHELL);
  const versioned = new URL(request.url).searchParams.has("v");
  const exact = versioned && (await shell.match(request));
  if (exact) return exact;
  try {
    return await soon(fetch(request), PATIENCE);
  } catch {
    return (await shell.match(request, { ignoreSearch: true })) ?? fetch(request);
  }
}

/** A picture never changes under its address; without signal the small one stands for the large one. */
async function picture(event) {
  const { request } = event;
  const cache = await caches.open(PICTURES);
  const kept = await cache.match(request);
  if (kept) return kept;
  try {
    return await fetch(request);
  } catch {
    return (await cache.match(request.url.replace(/\d+$/, "320"))) ?? Response.error();
  }
}

const KINDS = [
  [/^\/static\//, file],
  [/^\/photos\/[0-9a-f]{64}\/\d+$/, picture],
  [/^\/builds\/[^/]+\/(papers\/[^/]+\/file|said\/\d+\/sound)$/, whole],
  [/^\/(builds\/|log-the-day$|before-cover$|not-sent$|$)/, sheet],
];

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (request.method === "POST" && url.pathname === "/share") event.respondWith(shared(request));
  if (request.method === "POST" && url.pathname === "/sign-out") event.waitUntil(forget());
  if (request.method !== "GET") return;
  const kind = KINDS.find(([of]) => of.test(url.pathname))?.[1];
  if (request.mode === "navigate") event.respondWith((kind ?? elsewhere)(event));
  else if (kind && (kind !== sheet || request.headers.has("HX-Request"))) event.respondWith(kind(event));
});

const forget = () => Promise.all([caches.delete(PAGES), caches.delete(PICTURES), store.know("build", null)]);

let keeping = null;
self.addEventListener("message", (event) => {
  const { keep } = event.data ?? {};
  if (!/^\/builds\/[^/]+$/.test(keep ?? "")) return;
  const tell = (done, all) => done % 10 === 0 && event.source?.postMessage({ keeping: done, all });
  keeping ??= keepAll(keep, tell)
    .then(() => event.source?.postMessage({ kept: true }))
    .catch((fault) => event.source?.postMessage({ kept: false, full: fault.name === "QuotaExceededError" }))
    .finally(() => (keeping = null));
  event.waitUntil(keeping);
});

self.addEventListener("install", (event) => {
  const first = async () => {
    await (await caches.open(SHELL)).addAll([...FILES, "/not-kept"]);
    await self.skipWaiting();
  };
  event.waitUntil(first());
});

self.addEventListener("activate", (event) => {
  const clear = async () => {
    const old = (await caches.keys()).filter((name) => name.startsWith("studbay-files-") && name !== SHELL);
    await Promise.all(old.map((name) => caches.delete(name)));
    await self.clients.claim();
  };
  event.waitUntil(clear());
});

self.addEventListener("sync", (event) => {
  // Only a bonus: an open page sends what waits. Phones without this lose nothing.
  const wake = async () => (await self.clients.matchAll()).forEach((client) => client.postMessage({ send: true }));
  event.waitUntil(wake());
});
