// What the worker answers for a sheet: from the network; the kept one when there is none, or when it lets one wait.

import { aged, put } from "./aging.js";
import { PAGES, isSheet } from "./keeping.js";
import * as store from "./store.js";

export const PATIENCE = 1500; // ms until a kept sheet is shown instead of waiting on
const SLOW = "slow";
const DOWN = new Set([502, 503, 504]); // said by what stands between, when the other end is not there

const path = (request) => new URL(request.url).pathname;
/** `promise`, or refused after `ms`. */
export const soon = (promise, ms) => Promise.race([promise, new Promise((_, refuse) => setTimeout(() => refuse(new Error(SLOW)), ms))]);

/** A sheet of a build. */
export async function sheet(event) {
  const { request } = event;
  const cache = await caches.open(PAGES);
  const kept = await cache.match(request);
  const coming = fetch(request).then((answer) => {
    if (kept && DOWN.has(answer.status)) throw new Error("down");
    if (isSheet(answer)) event.waitUntil(put(cache, request, answer.clone()).catch(() => {}));
    return answer;
  });
  event.waitUntil(coming.catch(() => {}));
  try {
    return await (kept ? soon(coming, PATIENCE) : coming);
  } catch (fault) {
    event.waitUntil(coming.then((answer) => isSheet(answer) && tellFresh(event.resultingClientId), () => {}));
    if (kept) return request.mode === "navigate" && path(request) !== "/not-sent" ? aged(kept, fault.message === SLOW) : kept;
    return request.mode === "navigate" ? instead(request, cache) : Response.error();
  }
}

/** The kept sheet was shown because the line was slow; now the new one is here too. */
async function tellFresh(id) {
  (id && (await self.clients.get(id)))?.postMessage({ fresh: true });
}

/** Without signal and without that sheet: the home screen's ways lead to the build used last, all else is named as not kept. */
async function instead(request, cache) {
  const { base } = (await store.known("build").catch(() => null)) ?? {};
  const ways = { "/": "/today", "/log-the-day": "/workdays/log", "/before-cover": "/before-cover", [`${base}`]: "/today" };
  const way = base && ways[path(request)];
  if (way) return Response.redirect(`${base}${way}`, 302);
  const plain = await cache.match(path(request)); // never what another question was answered with
  if (plain) return aged(plain);
  return (await caches.match("/not-kept")) ?? Response.error();
}

/** The file of a paper or a voice note; without signal the whole of it, also where a player asks for a part. */
export async function whole(event) {
  try {
    return await fetch(event.request);
  } catch {
    return (await (await caches.open(PAGES)).match(event.request, { ignoreVary: true })) ?? Response.error();
  }
}

/** A sheet that is only read with signal. */
export async function elsewhere(event) {
  try {
    return await fetch(event.request);
  } catch {
    return instead(event.request, await caches.open(PAGES));
  }
}
