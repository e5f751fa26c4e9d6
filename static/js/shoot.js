// Straight from the list: one press opens the camera, and what it took is kept and sent at once. Without this module the
// form is an ordinary one with its own button.

import { show } from "./answer.js";
import { freshId } from "./ids.js";
import { sentence, submit } from "./sender.js";

const MB = 1024 * 1024;

/** What to say before anything is sent: nothing when the picture can go. */
export function refusal(file, limitMb) {
  if (limitMb && file.size > limitMb * MB) return `This picture is larger than ${limitMb} MB, so it would not be kept.`;
  return file.size === 0 ? "This file is empty. Take the picture once more." : "";
}

function tell(form, words, again) {
  const place = document.querySelector("[data-shoot-says]");
  if (!place) return;
  place.replaceChildren(words);
  place.hidden = words === "";
  if (again) {
    const button = Object.assign(document.createElement("button"), { type: "button", textContent: "Send it again" });
    button.addEventListener("click", () => form.requestSubmit());
    place.append(" ", button);
  }
  if (words) place.scrollIntoView({ block: "center" });
}

/** The screen stays awake while a list is shot, where the phone can do that. */
function stayAwake() {
  const ask = () => document.visibilityState === "visible" && navigator.wakeLock?.request("screen").catch(() => {});
  document.addEventListener("visibilitychange", ask);
  ask();
}

async function send(form, id) {
  tell(form, "Sending …", false);
  const outcome = await submit(form, null, id, (words) => tell(form, words, false));
  if (["saved", "redrawn"].includes(outcome.kind)) return show(outcome);
  const waits = outcome.kind !== "full" && !outcome.notKept;
  tell(form, `${sentence(outcome)}${waits ? " Go on with the next one." : ""}`, !waits);
  if (waits) form.reset();
  return null;
}

/** What belongs to a form: inside it, or elsewhere on the page under its id or the number of its owed picture. */
function parts(form, name) {
  const outside = form.id ? document.querySelectorAll(`[data-${name}="${form.id}"]`) : [];
  return [...form.querySelectorAll(`[data-${name}=""]`), ...outside];
}

let awake = false;

export function start(form) {
  const field = form.querySelector("input[type=file]");
  let busy = false;
  let id = freshId();
  form.hidden = false;
  if (form.id === "shoot" && !awake) {
    awake = true;
    stayAwake();
  }
  const plain = parts(form, "plain");
  const focused = plain.some((part) => part.contains(document.activeElement));
  for (const part of plain) part.hidden = true;
  for (const part of parts(form, "opens")) {
    part.hidden = false;
    part.addEventListener("click", () => field.click());
  }
  if (focused) parts(form, "opens")[0]?.focus(); // what is hidden now had it
  for (const link of document.querySelectorAll(`a[data-shoots="${form.elements.slot.value}"]`)) {
    link.addEventListener("click", (event) => {
      event.preventDefault();
      field.click();
    });
  }
  field.addEventListener("change", () => {
    if (!field.files.length) return;
    id = freshId(); // another picture is another sending
    const wrong = refusal(field.files[0], Number(form.dataset.limitMb));
    if (wrong) tell(form, wrong, false);
    else form.requestSubmit();
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (busy) return;
    busy = true;
    await send(form, id);
    busy = false;
  });
  if (field.files.length) field.dispatchEvent(new Event("change")); // taken before this module was here
}
