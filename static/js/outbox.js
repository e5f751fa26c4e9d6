// What is recorded goes through here: kept on this phone first, sent in order when there is a connection, dropped only
// when the server has answered that it is saved. Sent twice, it is saved once: each sending has an id made here.

import { sendBytes } from "./post.js";
import * as store from "./store.js";

export { localTime, freshId } from "./ids.js";

const LATER = new Set([0, 408, 425, 429, 500, 502, 503, 504]);
const GONE = 412; // a file that had arrived is not there any more: send it again
const WAITS = [5, 15, 60, 300]; // seconds until another try, while something waits
const changes = "BroadcastChannel" in globalThis ? new BroadcastChannel("studbay-outbox") : null;

let running = null;
const became = new Map(); // what this page heard of each sending, until it is asked for
let tries = 0;
let timer;

/** Tells every open page that something waits, or waits no longer. */
function changed() {
  document.dispatchEvent(new Event("studbay:outbox"));
  changes?.postMessage(0);
}
changes?.addEventListener("message", () => document.dispatchEvent(new Event("studbay:outbox")));

/** Keeps a sending on this phone. Refused when the phone has no room (`QuotaExceededError`) or keeps nothing at all. */
export async function keep(entry, bytes) {
  became.delete(entry.id);
  await store.keep(entry, bytes);
  changed();
}

export async function throwAway(id) {
  await store.drop(id);
  changed();
}

/** The bytes of its pictures first, each by itself; those that arrived are not sent again. */
async function sendFiles(entry, tell) {
  const files = entry.files.map((file) => ({ ...file }));
  for (const [number, file] of files.entries()) {
    if (file.kept) continue;
    const bytes = await store.bytesOf(entry.id, number);
    if (!bytes) throw Object.assign(new Error("not on this phone any more"), { status: GONE });
    file.kept = await sendBytes(bytes, (share) => tell(`Picture ${number + 1} of ${files.length}: ${Math.round(100 * share)} %`, entry));
    await store.amend(entry.id, { files });
  }
  return files;
}

function filled(entry, files) {
  const data = new FormData();
  for (const [name, value] of entry.fields) data.append(name, value);
  for (const { field, name, kept } of files) data.append(`arrived:${field}`, `${kept} ${name}`);
  return data;
}

function headers(entry) {
  const given = { Accept: "text/html", "Studbay-Recorded": entry.at, "Studbay-Seen": entry.seen };
  if (!entry.fields.some(([name, value]) => name === "sent_id" && value)) given["Studbay-Sent"] = entry.id;
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value));
}

async function answered(entry, body) {
  const answer = await fetch(entry.action, { method: "POST", body, headers: headers(entry) });
  const { status, url, redirected } = answer;
  if (status === 401 || new URL(url).pathname === "/sign-in") return { kind: "signedOut" };
  if (LATER.has(status) || status === GONE) return { kind: "later", status };
  const text = await answer.text();
  if (!text.includes('class="sheet"')) return { kind: "strange", status }; // not a page of ours: something in between refused
  return { kind: status < 400 ? "saved" : "redrawn", status, url, redirected, text };
}

/** Without keeping it first, on a phone that keeps nothing: the same form, with the files themselves. */
export function sendAtOnce(entry, data) {
  return answered(entry, data).catch(() => ({ kind: "later", status: 0 }));
}

/** Sends one: `{kind}` is saved, redrawn, signedOut or later; the first two bring the answer's `text`, `url`, `redirected`. */
async function sendOne(entry, tell) {
  try {
    const files = await sendFiles(entry, tell);
    const sent = await answered(entry, filled(entry, files));
    if (sent.status === GONE) await store.amend(entry.id, { files: entry.files.map((file) => ({ ...file, kept: "" })) });
    return sent;
  } catch (fault) {
    if (fault.status === 401) return { kind: "signedOut" };
    if (fault.status >= 400 && !LATER.has(fault.status)) return { kind: "strange", status: fault.status, says: fault.says };
    return { kind: "later", status: fault.status ?? 0 };
  }
}

const says = (text) => {
  const page = new DOMParser().parseFromString(text, "text/html");
  return (page.querySelector(".err, [role=alert] li, .stops b, main .lede, h1")?.textContent ?? "").trim().replace(/\s+/g, " ");
};

async function sendAll(tell, wanted) {
  for (const entry of await store.list()) {
    if (entry.state === "needs" && entry.id !== wanted) continue;
    tell("Sending …", entry);
    const sent = await sendOne(entry, tell);
    if (sent.kind === "saved") await store.drop(entry.id);
    if (sent.kind === "redrawn") await store.amend(entry.id, { state: "needs", says: says(sent.text) });
    if (sent.kind === "strange") await store.amend(entry.id, { state: "needs", says: sent.says || `The other end did not take it (${sent.status}).` });
    if (sent.kind !== "later") tries = 0;
    became.set(entry.id, sent);
    changed();
    if (sent.kind === "signedOut" || sent.kind === "later") {
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
export async function send(tell = () => {}, wanted = "") {
  while (running) await running.catch(() => {});
  if (!became.has(wanted)) {
    running = alone(() => sendAll(tell, wanted)).finally(() => (running = null));
    const last = await running;
    again();
    if (!became.has(wanted)) return last;
  }
  const outcome = became.get(wanted);
  became.delete(wanted);
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
