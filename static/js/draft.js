// What is typed and not sent yet stays on this phone as a draft of its words.

import { shownMoment } from "./ids.js";

const NOT_KEPT = new Set(["file", "hidden", "password", "submit", "button"]);

/** The draft in `storage` under `key`, or null; a phone that stores nothing only loses the draft. */
export function readDraft(storage, key) {
  try {
    return JSON.parse(storage.getItem(key));
  } catch {
    return null;
  }
}

/** Keeps a draft, or throws it away when it is null. */
export function writeDraft(key, draft) {
  try {
    if (draft) localStorage.setItem(key, JSON.stringify(draft));
    else localStorage.removeItem(key);
  } catch {
    // Private windows and full phones refuse; the form itself is not touched by that.
  }
}

const kept = (form) => Array.from(form.elements).filter((field) => field.name && !NOT_KEPT.has(field.type));

/** What stands in the form, as [name, value] of all that is filled in or ticked. */
export function typed(form) {
  return kept(form)
    .filter((field) => (["checkbox", "radio"].includes(field.type) ? field.checked : field.value !== ""))
    .map((field) => [field.name, field.value]);
}

function changed(field) {
  if (!field.options) return field.checked !== field.defaultChecked || field.value !== field.defaultValue;
  const first = [...field.options].findIndex((one) => one.defaultSelected); // none: a list opens on its first
  return field.selectedIndex !== Math.max(first, 0);
}

/** Whether something stands in the form that was not there when it was opened. */
export const touched = (form) => kept(form).some(changed);

/** Fills the form with what was typed before, and opens the parts that hold some of it. */
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

/** Says since when there is a draft, with a button to throw it away. */
export function tellOfDraft(form, draft, key) {
  const line = document.querySelector("[data-sender-draft]");
  if (!line) return;
  const at = shownMoment(new Date(draft.at));
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
