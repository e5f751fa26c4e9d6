// Fetches what a phone keeps of a build to be read without signal.

import { AT, CHANGED, put } from "./aging.js";
import * as store from "./store.js";

export const PAGES = "studbay-pages";
export const PICTURES = "studbay-pictures";
const OTHER = ["/not-sent"];
const A_MONTH = 30 * 24 * 3600 * 1000;
const PART = /hx-get="([^"]+)" hx-trigger="load"/g;

/** Whether an answer is a sheet, and not a way to the sign-in. */
export const isSheet = (answer) => answer.ok && !answer.redirected && (answer.headers.get("Content-Type") ?? "").startsWith("text/html");
const forPart = (address) => new Request(address, { headers: { "HX-Request": "true" } });

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
export async function keepAll(base, tell) {
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
