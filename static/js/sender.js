// Sends a form once: the id is made here, nothing typed is lost without signal, a draft of the words stays on this phone.
// Without this module the form is an ordinary one, with an id made by the server.

export const NO_SIGNAL = "Not sent: no signal, or the other end does not answer. It is still here. Press again when there is.";
export const SIGNED_OUT = "Not sent: sign in again in another tab, then press again. It is still here.";
export const FAULT = "Not saved: something went wrong at the other end. It is still here. Press again, or go on later.";
export const REDRAWN = new Set([409, 422]); // the same form again, with what was typed and why it was not saved
const NOT_KEPT = new Set(["file", "hidden", "password", "submit", "button"]);

/** An id nobody else makes. On a plain http address there is no randomUUID, but there are random values. */
export function freshId() {
  if (globalThis.crypto.randomUUID) return crypto.randomUUID();
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

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

function putBack(form, fields) {
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

/** Puts the answer in place of this page: one fetch, so that what a page says once is not lost on the way. */
export async function show(answer) {
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  document.title = page.title;
  document.querySelector(".sheet").replaceWith(page.querySelector(".sheet"));
  if (answer.redirected) {
    history.pushState(null, "", answer.url);
    window.addEventListener("popstate", () => location.reload(), { once: true });
  }
  document.dispatchEvent(new Event("studbay:drawn"));
  const alert = document.querySelector("[role=alert]");
  const place = alert ?? document.querySelector("h1"); // the next Tab, and a screen reader, go on from here
  (alert ?? document.body).scrollIntoView();
  Object.assign(place, { tabIndex: -1 }).focus({ preventScroll: true });
}

export function start(form) {
  const key = `studbay-draft:${new URL(form.action).pathname}`;
  const keeps = "draft" in form.dataset;
  const found = keeps && "fresh" in form.dataset ? readDraft(localStorage, key) : null;
  const draft = found ?? { at: Date.now(), id: "fresh" in form.dataset ? freshId() : form.elements.sent_id.value };
  const says = document.querySelector("[data-sender-says]");
  const files = () => Array.from(form.elements).some((field) => field.type === "file" && field.files.length);
  let busy = false;
  if (found) {
    putBack(form, found.fields);
    tellOfDraft(form, found, key);
  }
  form.elements.sent_id.value = draft.id;
  form.addEventListener("input", () => keeps && writeDraft(key, { ...draft, fields: typed(form), pictures: files() }));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (busy) return;
    busy = true;
    const data = new FormData(form);
    if (event.submitter?.name) data.append(event.submitter.name, event.submitter.value);
    const say = (sentence) => Object.assign(says, { textContent: sentence, hidden: false }).scrollIntoView({ block: "center" });
    Object.assign(says, { textContent: "Sending …", hidden: false });
    try {
      const answer = await fetch(form.action, { method: "POST", body: data, headers: { Accept: "text/html" } });
      if (new URL(answer.url).pathname === "/sign-in" || answer.status === 401) say(SIGNED_OUT);
      else if (answer.redirected || REDRAWN.has(answer.status)) {
        if (answer.redirected) writeDraft(key, null);
        await show(answer);
      } else say(FAULT);
    } catch {
      say(NO_SIGNAL);
    }
    busy = false;
  });
}
