// Keeps the sheets that matter at the wall, and shows them when there is no signal, saying how old they are.
// VERSION and FILES are written above this line by the server. Nothing that is sent passes through here, but shared pictures.

import { freshId, localTime } from "/static/js/ids.js";
import * as store from "/static/js/store.js";

const SHELL = `studbay-files-${VERSION}`;
const PAGES = "studbay-pages";
const PICTURES = "studbay-pictures";
const OTHER = ["/not-kept", "/not-sent"];
const PATIENCE = 3000; // ms until a kept sheet is shown instead of waiting on
const AT = "Studbay-Kept-At";
const CHANGED = "Studbay-Changed";
const SHOWS = /<html [^>]*data-changed="([^"]*)"/;
const A_MONTH = 30 * 24 * 3600 * 1000;
const PART = /hx-get="([^"]+)" hx-trigger="load"/g;
const MONTHS = "January February March April May June July August September October November December".split(" ");
const DAYS = "Sunday Monday Tuesday Wednesday Thursday Friday Saturday".split(" ");

const path = (request) => new URL(request.url).pathname;
const isSheet = (answer) => answer.ok && !answer.redirected && (answer.headers.get("Content-Type") ?? "").startsWith("text/html");
const forPart = (address) => new Request(address, { headers: { "HX-Request": "true" } });

/** "2 hours ago, Saturday 16 May, 14:20". */
export function age(moment, now) {
  const minutes = Math.max(0, Math.round((now - moment) / 60000));
  const [count, unit] = minutes < 60 ? [minutes, "minute"] : minutes < 2880 ? [Math.round(minutes / 60), "hour"] : [Math.round(minutes / 1440), "day"];
  const time = `${String(moment.getHours()).padStart(2, "0")}:${String(moment.getMinutes()).padStart(2, "0")}`;
  const day = `${DAYS[moment.getDay()]} ${moment.getDate()} ${MONTHS[moment.getMonth()]}, ${time}`;
  return `${count === 0 ? "just now" : `${count} ${unit}${count === 1 ? "" : "s"} ago`}, ${day}`;
}

function waits(entries) {
  if (!entries.length) return "";
  return ` <a href="/not-sent">Not sent yet: ${entries.length}</a>. ${entries.length === 1 ? "It is" : "They are"} not in what stands here.`;
}

/** The kept sheet with a line at its top that says how old it is, and marked for the scripts of the page. */
async function aged(kept) {
  const whole = (await store.known("kept").catch(() => null)) ?? {};
  const seen = whole.changed && whole.changed === kept.headers.get(CHANGED) ? whole.at : ""; // nothing had changed by then
  const moment = new Date([kept.headers.get(AT), seen].sort().at(-1));
  const entries = await store.list().catch(() => []);
  const line = `<div class="said kept" role="status"><p><b>No signal. Kept on this phone ${age(moment, new Date())}.</b>${waits(entries)}</p></div>`;
  const text = (await kept.text()).replace("<html ", `<html data-kept-at="${moment.toISOString()}" `);
  const headers = new Headers(kept.headers);
  headers.delete("Content-Encoding");
  headers.delete("Content-Length");
  return new Response(text.replace('<main id="main">', `<main id="main">${line}`), { headers });
}

async function put(cache, request, answer) {
  const headers = new Headers(answer.headers);
  const text = await answer.text();
  headers.set(AT, new Date().toISOString());
  headers.set(CHANGED, SHOWS.exec(text)?.[1] ?? "");
  await cache.put(request, new Response(text, { headers }));
}

const soon = (promise, ms) => Promise.race([promise, new Promise((_, refuse) => setTimeout(() => refuse(new Error("slow")), ms))]);

/** From the network; the kept one when there is none, or when it lets one wait. */
async function sheet(event) {
  const { request } = event;
  const cache = await caches.open(PAGES);
  const kept = await cache.match(request);
  const coming = fetch(request).then((answer) => {
    if (isSheet(answer)) event.waitUntil(put(cache, request, answer.clone()).catch(() => {}));
    return answer;
  });
  coming.catch(() => {});
  event.waitUntil(coming.catch(() => {}));
  try {
    return await (kept ? soon(coming, PATIENCE) : coming);
  } catch {
    if (kept) return request.mode === "navigate" && path(request) !== "/not-sent" ? aged(kept) : kept;
    return request.mode === "navigate" ? instead(request, cache) : Response.error();
  }
}

/** Without signal and without that sheet: the home screen's ways lead to the build used last, all else is named as not kept. */
async function instead(request, cache) {
  const { base } = (await store.known("build").catch(() => null)) ?? {};
  const ways = { "/": "/today", "/log-the-day": "/workdays/log", "/before-cover": "/before-cover", [`${base}`]: "/today" };
  const way = base && ways[path(request)];
  if (way) return Response.redirect(`${base}${way}`, 302);
  const plain = await cache.match(path(request)); // never what another question was answered with
  if (plain) return aged(plain);
  return (await cache.match("/not-kept")) ?? Response.error();
}

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

async function paper(event) {
  try {
    return await fetch(event.request);
  } catch {
    return (await (await caches.open(PAGES)).match(event.request, { ignoreVary: true })) ?? Response.error();
  }
}

/** A sheet that is only read with signal. */
async function elsewhere(event) {
  try {
    return await fetch(event.request);
  } catch {
    return instead(event.request, await caches.open(PAGES));
  }
}

/** Pictures that were shared to Studbay wait with everything else that is not sent. */
async function shared(request) {
  const data = await request.formData();
  const files = data.getAll("pictures").filter((one) => one instanceof File && one.size);
  const { base = "" } = (await store.known("build").catch(() => null)) ?? {};
  if (files.length && base) {
    const [first] = files;
    await store.keep(
      {
        id: freshId(), at: localTime(new Date()), seen: "", action: `${base}/pictures`, page: `${base}/pictures`, state: "waiting",
        what: files.length === 1 ? `Shared picture ${first.name}` : `${files.length} shared pictures`, fields: [], says: "",
        files: files.map(({ name, type, size, lastModified }) => ({ field: "pictures", name, type, size, modified: lastModified, kept: "" })),
      },
      await Promise.all(files.map((one) => one.arrayBuffer())),
    );
  }
  return Response.redirect("/not-sent", 303);
}

const KINDS = [
  [/^\/static\//, file],
  [/^\/photos\/[0-9a-f]{64}\/\d+$/, picture],
  [/^\/builds\/[^/]+\/papers\/[^/]+\/file$/, paper],
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

async function keepOne(cache, address, changed) {
  const kept = await cache.match(address);
  if (kept?.headers.get(CHANGED) === changed) return;
  const answer = await fetch(address, { headers: { Accept: "text/html" }, redirect: "manual" });
  if (!isSheet(answer)) return;
  const parts = [...(await answer.clone().text()).matchAll(PART)].map(([, part]) => part.replaceAll("&amp;", "&"));
  await put(cache, address, answer);
  for (const part of parts) {
    const drawn = await fetch(forPart(part));
    if (isSheet(drawn)) await put(cache, forPart(part), drawn);
  }
}

/** Fetches what this phone keeps of a build, one after the other; what is there and new enough is left alone. */
async function keepAll(base, tell) {
  const answer = await fetch(`${base}/kept`, { headers: { Accept: "application/json" } });
  if (!answer.ok || answer.redirected) return;
  const wanted = await answer.json();
  const [pages, pictures] = [await caches.open(PAGES), await caches.open(PICTURES)];
  const all = wanted.pages.length + wanted.pictures.length + wanted.files.length;
  let done = 0;
  await store.know("build", { base, name: wanted.build });
  for (const address of [...OTHER, ...wanted.pages]) await keepOne(pages, address, wanted.changed), tell(++done, all);
  for (const [cache, addresses] of [[pictures, wanted.pictures], [pages, wanted.files]]) {
    for (const address of addresses) {
      if (!(await cache.match(address))) await cache.add(address).catch(() => {});
      tell(++done, all);
    }
  }
  await tidy(pages);
  await store.know("kept", { base, at: new Date().toISOString(), changed: wanted.changed, pages: wanted.pages.length, pictures: wanted.pictures.length, files: wanted.files.length });
}

/** What was only looked at once, a month ago, makes room. */
async function tidy(cache) {
  for (const request of await cache.keys()) {
    const at = (await cache.match(request))?.headers.get(AT);
    if (at && Date.now() - new Date(at) > A_MONTH) await cache.delete(request);
  }
}

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
    await (await caches.open(SHELL)).addAll(FILES);
    await (await caches.open(PAGES)).add("/not-kept");
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
