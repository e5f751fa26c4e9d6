// Sends a form once: it is kept on this phone first (outbox.js), then sent; nothing is lost without signal. What is typed
// and not sent yet stays as a draft. Without this module the form is an ordinary one, with an id made by the server.

import { freshId, keep, localTime, send, sendAtOnce, throwAway } from "./outbox.js";
import * as store from "./store.js";
import "./unsent.js";

const NO_ROOM = "This phone has no room left to keep it. Nothing is lost while this page stays open: make room, or press again with signal.";
const NOT_KEPT = new Set(["file", "hidden", "password", "submit", "button"]);
const NO_SIGNAL = "Not sent: no signal, or the other end does not answer. It is still here, and this phone keeps nothing itself. Press again when there is.";
const KEPT = "Kept on this phone: no signal, or the other end does not answer. It is sent by itself.";
const SIGNED_OUT = "Not sent: you are signed out. It is kept on this phone; sign in again and it goes by itself.";
const FAULT = "Not saved: something went wrong at the other end. It is kept on this phone and sent again by itself.";

/** The draft in `storage` under `key`, or null; a phone that stores nothing only loses the draft. */
export function readDraft(storage, key) {
  try {
    return JSON.parse(storage.getItem(key));
  } catch {
    return null;
  }
}

function writeDraft(key, draft) {
  try {
    if (draft) localStorage.setItem(key, JSON.stringify(draft));
    else localStorage.removeItem(key);
  } catch {
    // Private windows and full phones refuse; the form itself is not touched by that.
  }
}

const kept = (form) => Array.from(form.elements).filter((field) => field.name && !NOT_KEPT.has(field.type));

/** What stands in the form, as [name, value] of all that is filled in or ticked. */
function typed(form) {
  return kept(form)
    .filter((field) => (["checkbox", "radio"].includes(field.type) ? field.checked : field.value !== ""))
    .map((field) => [field.name, field.value]);
}

export function putBack(form, fields) {
  const has = (field) => fields.some(([name, value]) => name === field.name && value === field.value);
  for (const field of kept(form)) {
    if (["checkbox", "radio"].includes(field.type)) field.checked = has(field);
    else field.value = fields.find(([name]) => name === field.name)?.[1] ?? field.value;
    const part = field.closest("details");
    if (part && field.type !== "select-one" && fields.some(([name]) => name === field.name)) part.open = true;
  }
  form.dispatchEvent(new Event("change", { bubbles: true }));
}

function tellOfDraft(form, draft, key) {
  const line = document.querySelector("[data-sender-draft]");
  if (!line) return;
  const at = new Date(draft.at).toLocaleString([], { day: "numeric", month: "long", hour: "2-digit", minute: "2-digit" });
  const pictures = draft.pictures ? " Pictures were not kept: choose them again." : "";
  line.textContent = `Draft kept on this phone since ${at}.${pictures} `;
  const button = Object.assign(document.createElement("button"), { type: "button", textContent: "Throw the draft away" });
  button.addEventListener("click", () => {
    writeDraft(key, null);
    location.reload();
  });
  line.append(button);
  line.hidden = false;
}

/** The sheets of styles that the new page has and this one has not. */
function restyled(page) {
  const here = new Set(Array.from(document.querySelectorAll("link[rel=stylesheet]"), (link) => link.href));
  const missing = [...page.querySelectorAll("link[rel=stylesheet]")].filter((link) => !here.has(new URL(link.getAttribute("href"), location.href).href));
  return Promise.all(missing.map((link) => new Promise((done) => {
    const added = Object.assign(document.createElement("link"), { rel: "stylesheet", href: link.getAttribute("href"), onload: done, onerror: done });
    document.head.append(added);
  })));
}

/** Puts the answer in place of this page: one fetch, so that what a page says once is not lost on the way. */
export async function show({ text, url, redirected }) {
  const page = new DOMParser().parseFromString(text, "text/html");
  await restyled(page);
  document.title = page.title;
  document.documentElement.dataset.changed = page.documentElement.dataset.changed ?? "";
  document.querySelector(".sheet").replaceWith(page.querySelector(".sheet"));
  if (redirected) {
    history.pushState(null, "", url);
    window.addEventListener("popstate", () => location.reload(), { once: true });
  }
  document.dispatchEvent(new Event("studbay:drawn"));
  const alert = document.querySelector("[role=alert]");
  const place = alert ?? document.querySelector("h1"); // the next Tab, and a screen reader, go on from here
  (alert ?? document.body).scrollIntoView();
  Object.assign(place, { tabIndex: -1 }).focus({ preventScroll: true });
}

/** In a few words, what a form records: its own words for it, else the heading of the page and the button. */
function inWords(form, submitter) {
  const heading = document.querySelector("h1")?.textContent.trim() ?? document.title;
  const button = submitter?.textContent.trim() ?? "";
  return form.dataset.what ?? (button && button !== heading ? `${heading}: ${button}` : heading);
}

/** A sending that was opened again from the list of what is not sent, if it belongs to this form. */
async function reopened(form) {
  const id = /^#sending=(.+)$/.exec(location.hash)?.[1];
  const entry = id && (await store.find(id).catch(() => null));
  return entry && entry.action === new URL(form.action).pathname + new URL(form.action).search ? entry : null;
}

/** A form as it is kept and sent, and the bytes of its files. */
function taken(form, submitter, id, before) {
  const data = new FormData(form);
  if (submitter?.name) data.append(submitter.name, submitter.value);
  const to = new URL(submitter?.getAttribute("formaction") ?? form.getAttribute("action") ?? "", location.href);
  const files = [...data].filter(([, value]) => value instanceof File && value.name && value.size);
  const fields = [...data].filter(([, value]) => !(value instanceof File));
  const entry = {
    id,
    at: localTime(new Date()),
    seen: document.documentElement.dataset.changed ?? "",
    action: to.pathname + to.search,
    page: location.pathname + location.search,
    what: inWords(form, submitter),
    state: "waiting",
    says: "",
    fields,
    files: [...before, ...files.map(([field, { name, type, size, lastModified }]) => ({ field, name, type, size, modified: lastModified, kept: "" }))],
  };
  return { entry, data, bytes: async () => [...before.map(() => null), ...(await Promise.all(files.map(([, file]) => file.arrayBuffer())))] };
}

/** In place of the form: it is kept here, and where to go on. */
function showKept(entry, count) {
  const panel = document.createElement("section");
  const files = entry.files.length ? `, with ${entry.files.length} file${entry.files.length === 1 ? "" : "s"}` : "";
  panel.className = "stack";
  panel.innerHTML = `<h1 tabindex="-1">Kept on this phone</h1><p class="lede"></p><p>It is sent by itself when there is signal. Not sent yet: ${count}.</p>
    <p class="links"><a data-again>Record another</a><a href="/not-sent">What is not sent</a></p><div class="reach"><a class="btn main" href="/">Today</a></div>`;
  panel.querySelector(".lede").textContent = `${entry.what}${files}.`;
  panel.querySelector("[data-again]").href = entry.page;
  document.querySelector("main").replaceChildren(panel);
  panel.querySelector("h1").focus();
  scrollTo(0, 0);
}

/** Keeps what stands in the form under `id` and sends it, telling how it goes. `{kind, entry}` and what came back. */
export async function submit(form, submitter, id, tell, before = []) {
  const { entry, data, bytes } = taken(form, submitter, id, before);
  try {
    await keep(entry, await bytes());
  } catch (fault) {
    if (fault?.name === "QuotaExceededError") return { kind: "full", entry };
    return { ...(await sendAtOnce(entry, data)), entry, notKept: true };
  }
  const outcome = (await send((words, of) => of.id === entry.id && tell(words), entry.id)) ?? { kind: "elsewhere" };
  if (outcome.kind === "redrawn" && !outcome.text.includes(entry.id)) await throwAway(entry.id); // shown now, and nothing in it to type again
  if (outcome.kind === "later") navigator.storage?.persist?.().catch(() => false);
  return { ...outcome, entry };
}

/** What to say of a sending that was neither saved nor drawn again. */
export function sentence({ kind, status, notKept }) {
  if (kind === "strange") return `Not saved: the other end did not take it (${status}). It is kept on this phone, under “Not sent”.`;
  if (kind === "full") return NO_ROOM;
  if (notKept) return NO_SIGNAL;
  if (kind === "signedOut") return SIGNED_OUT;
  return status ? FAULT : KEPT;
}

function sayReopened(says, entry) {
  const files = entry.files.length ? ` Kept with it: ${entry.files.map((file) => file.name).join(", ")}.` : "";
  Object.assign(says, { textContent: `Recorded ${entry.at.replace("T", ", ").slice(0, 17)} and not sent yet. What you change here takes its place.${files}`, hidden: false });
}

export async function start(form) {
  const key = `studbay-draft:${new URL(form.action).pathname}`;
  const keeps = "draft" in form.dataset;
  const found = keeps && "fresh" in form.dataset ? readDraft(localStorage, key) : null;
  const own = form.elements.sent_id;
  const fresh = "fresh" in form.dataset || !own || "keptAt" in document.documentElement.dataset;
  const draft = found ?? { at: Date.now(), id: fresh ? freshId() : own.value };
  const says = document.querySelector("[data-sender-says]") ?? form.appendChild(Object.assign(document.createElement("p"), { className: "note", role: "status", hidden: true }));
  const files = () => Array.from(form.elements).some((field) => field.type === "file" && field.files.length);
  let [busy, before] = [false, []];
  const say = (words) => Object.assign(says, { textContent: words, hidden: !words });
  if (found) {
    putBack(form, found.fields);
    tellOfDraft(form, found, key);
  }
  if (own) own.value = draft.id;
  form.addEventListener("input", () => keeps && writeDraft(key, { ...draft, fields: typed(form), pictures: files() }));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (busy) return;
    busy = true;
    say("Sending …");
    const outcome = await submit(form, event.submitter, draft.id, say, before);
    busy = false;
    if (outcome.kind !== "full" && !outcome.notKept && outcome.kind !== "redrawn") writeDraft(key, null);
    if (["saved", "redrawn"].includes(outcome.kind)) await show(outcome);
    else if (outcome.kind === "elsewhere") location.assign(outcome.entry.page); // another open page has sent it
    else if (outcome.kind === "later" && !outcome.status && !outcome.notKept) showKept(outcome.entry, (await store.list()).length);
    else say(sentence(outcome)).scrollIntoView({ block: "center" });
  });
  const again = await reopened(form);
  if (!again) return;
  before = again.files;
  draft.id = again.id;
  if (own) own.value = again.id;
  putBack(form, again.fields);
  sayReopened(says, again);
}
