// What is recorded goes through here: kept on this phone first, sent in order when there is a connection, dropped only
// when the server has answered that it is saved. Sent twice, it is saved once: each sending has an id made here.

import { sendOne } from "./sending.js";
import * as store from "./store.js";

export { sendAtOnce } from "./sending.js";

const WAITS = [5, 15, 60, 300]; // seconds until another try, while something waits
const changes = "BroadcastChannel" in globalThis ? new BroadcastChannel("studbay-outbox") : null;

let running = null;
const became = new Map(); // what this page heard, by the turn of a sending: what takes its place has a turn of its own
let tries = 0;
let timer;

/** Tells every open page that something waits, or waits no longer. */
function changed() {
  document.dispatchEvent(new Event("studbay:outbox"));
  changes?.postMessage(0);
}
changes?.addEventListener("message", () => document.dispatchEvent(new Event("studbay:outbox")));

/** Keeps a sending on this phone: its files one after the other (an old phone has no room for all at once), then itself.
 * `files` are those chosen now; they stand last in `entry.files`. Refused when the phone has no room (`QuotaExceededError`)
 * or keeps nothing at all; nothing is left of it then. */
export async function keep(entry, files) {
  const first = entry.files.length - files.length;
  try {
    for (const [number, file] of files.entries()) await store.keepBytes(entry.id, first + number, await file.arrayBuffer());
    await store.keep(entry);
  } catch (fault) {
    if (!first && !(await store.find(entry.id).catch(() => null))) await store.drop(entry.id).catch(() => {});
    throw fault;
  }
  changed();
}

export async function throwAway(id) {
  await store.drop(id);
  changed();
}

const says = (text) => {
  const page = new DOMParser().parseFromString(text, "text/html");
  const found = [".stops b", ".err", "[role=alert] li", "main .lede", "h1"].map((place) => page.querySelector(place)).find(Boolean);
  return (found?.textContent ?? "").trim().replace(/\s+/g, " ");
};

async function sendAll(tell, wanted) {
  for (const entry of await store.list()) {
    if (entry.state === "needs" && entry.id !== wanted) continue;
    tell("Sending …", entry);
    const sent = await sendOne(entry, tell);
    if (sent.kind === "saved") await store.drop(entry.id, entry.turn);
    if (sent.kind === "redrawn") await store.amend(entry.id, { state: "needs", says: says(sent.text) }, entry.turn);
    if (sent.kind === "strange") await store.amend(entry.id, { state: "needs", says: sent.says || `The other end did not take it (${sent.status}).` }, entry.turn);
    if (sent.kind !== "later") tries = 0;
    became.set(entry.turn, sent);
    if (sent.kind !== "signedOut" && sent.kind !== "later") changed();
    else {
      document.dispatchEvent(new CustomEvent("studbay:held", { detail: sent.kind }));
      return sent; // in order: what comes after waits too
    }
  }
  return null;
}

const alone = (work) => (navigator.locks ? navigator.locks.request("studbay-outbox", work) : work());

async function again() {
  clearTimeout(timer);
  const waiting = (await store.list().catch(() => [])).filter((entry) => entry.state === "waiting");
  if (waiting.length) timer = setTimeout(() => send(), 1000 * WAITS[Math.min(tries++, WAITS.length - 1)]);
}

/** Sends what waits, in order. Gives what became of `wanted`, or what the rest waits for; null when nothing is left. */
export async function send(tell = () => {}, wanted = null) {
  while (running) await running.catch(() => {});
  if (!became.has(wanted?.turn)) {
    running = alone(() => sendAll(tell, wanted?.id)).finally(() => (running = null));
    const last = await running;
    again();
    if (!became.has(wanted?.turn)) return last;
  }
  const outcome = became.get(wanted.turn);
  became.delete(wanted.turn);
  return outcome;
}

const SOON = () => document.visibilityState === "visible" && send().catch(() => {});

/** Sends on load, when the page is seen again, when the phone says it is online, and from time to time while something waits. */
export function start() {
  window.addEventListener("online", SOON);
  window.addEventListener("pageshow", SOON);
  document.addEventListener("visibilitychange", SOON);
  navigator.serviceWorker?.addEventListener("message", ({ data }) => data?.send && SOON());
  SOON();
}
