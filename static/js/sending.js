// One sending on its way: its files first, each by itself, then the form; and what came back.

import { sendBytes } from "./post.js";
import * as store from "./store.js";

const LATER = new Set([0, 408, 425, 429, 500, 502, 503, 504]);
const GONE = 412; // a file that had arrived is not there any more: send it again

/** The bytes of its pictures first, each by itself; those that arrived are not sent again. */
async function sendFiles(entry, tell) {
  const files = entry.files.map((file) => ({ ...file }));
  for (const [number, file] of files.entries()) {
    if (file.kept) continue;
    const bytes = await store.bytesOf(entry.id, number);
    if (!bytes) throw Object.assign(new Error("not on this phone any more"), { status: GONE });
    file.kept = await sendBytes(bytes, (share) => tell(`Picture ${number + 1} of ${files.length}: ${Math.round(100 * share)} %`, entry));
    await store.amend(entry.id, { files }, entry.turn);
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
export async function sendOne(entry, tell) {
  try {
    const files = await sendFiles(entry, tell);
    const sent = await answered(entry, filled(entry, files));
    if (sent.status === GONE) await store.amend(entry.id, { files: entry.files.map((file) => ({ ...file, kept: "" })) }, entry.turn);
    return sent;
  } catch (fault) {
    if (fault.status === 401) return { kind: "signedOut" };
    if (fault.status >= 400 && !LATER.has(fault.status)) return { kind: "strange", status: fault.status, says: fault.says };
    return { kind: "later", status: fault.status ?? 0 };
  }
}
