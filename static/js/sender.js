// Sends a form once: it is kept on this phone first (outbox.js), then sent; nothing is lost without signal. What is typed
// and not sent yet stays as a draft. Without this module the form is an ordinary one, with an id made by the server.

import { asksAgain, show } from "./answer.js";
import { putBack, readDraft, tellOfDraft, touched, typed, writeDraft } from "./draft.js";
import { freshId, shownMoment } from "./ids.js";
import { keep, send, sendAtOnce, throwAway } from "./outbox.js";
import * as store from "./store.js";
import { taken } from "./taken.js";
import "./unsent.js";

const NO_ROOM = "This phone has no room left to keep it. Nothing is lost while this page stays open: make room, or press again with signal.";
const NO_SIGNAL = "Not sent: no signal, or the other end does not answer. It is still here, and this phone keeps nothing itself. Press again when there is.";
const KEPT = "Kept on this phone: no signal, or the other end does not answer. It is sent by itself.";
const SIGNED_OUT = "Not sent: you are signed out. It is kept on this phone; sign in again and it goes by itself.";
const FAULT = "Not saved: something went wrong at the other end. It is kept on this phone and sent again by itself.";

/** A sending that was opened again from the list of what is not sent, if it belongs to this form. */
async function reopened(form) {
  const id = /^#sending=(.+)$/.exec(location.hash)?.[1];
  const entry = id && (await store.find(id).catch(() => null));
  return entry && entry.action === new URL(form.action).pathname + new URL(form.action).search ? entry : null;
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

/** Something waits: the phone is asked to keep it for good, and to wake this page when there is signal, where it can. */
function waitWell() {
  navigator.storage?.persist?.().catch(() => false);
  navigator.serviceWorker?.ready.then((registration) => registration.sync?.register("send")).catch(() => {});
}

/** Keeps what stands in the form under `id` and sends it, telling how it goes. `{kind, entry}` and what came back. */
export async function submit(form, submitter, id, tell, before = []) {
  const { entry, data, chosen } = taken(form, submitter, id, before);
  try {
    await keep(entry, chosen);
  } catch (fault) {
    if (fault?.name === "QuotaExceededError") return { kind: "full", entry };
    return { ...(await sendAtOnce(entry, data)), entry, notKept: true };
  }
  const outcome = (await send((words, of) => of.id === entry.id && tell(words), entry)) ?? { kind: "elsewhere" };
  if (outcome.kind === "redrawn" && !asksAgain(outcome, entry.action)) await throwAway(entry.id); // shown now, and nothing in it to type again
  if (outcome.kind === "later") waitWell();
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
  Object.assign(says, { textContent: `Recorded ${shownMoment(new Date(entry.at))} and not sent yet. What you change here takes its place.${files}`, hidden: false });
}

export async function start(form) {
  const key = `studbay-draft:${new URL(form.action).pathname}`;
  const keeps = "draft" in form.dataset;
  const found = keeps && "fresh" in form.dataset ? readDraft(localStorage, key) : null;
  const own = form.elements.sent_id;
  const [settles, of] = (document.documentElement.dataset.settles ?? "").split(" "); // drawn again: this press takes its place
  const fresh = "fresh" in form.dataset || !own || "keptAt" in document.documentElement.dataset;
  const draft = found ?? { at: Date.now(), id: of && of === form.getAttribute("action") ? settles : fresh ? freshId() : own.value };
  const says = document.querySelector("[data-sender-says]") ?? form.appendChild(Object.assign(document.createElement("p"), { className: "note", role: "status", hidden: true }));
  const files = () => Array.from(form.elements).some((field) => field.type === "file" && field.files.length);
  let [busy, before] = [false, []];
  const say = (words) => Object.assign(says, { textContent: words, hidden: !words });
  if (found) {
    putBack(form, found.fields);
    tellOfDraft(form, found, key);
  }
  if (own) own.value = draft.id;
  const note = () => keeps && writeDraft(key, { ...draft, fields: typed(form), pictures: files() });
  form.addEventListener("input", note);
  if (!found && touched(form)) note(); // typed before this module was here
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
