// Straight from the list: one press opens the camera, and what it took is sent at once. Without this module the form is
// an ordinary one with its own button.

import { FAULT, NO_SIGNAL, REDRAWN, SIGNED_OUT, show } from "./sender.js";

const MB = 1024 * 1024;

/** What to say before anything is sent: nothing when the picture can go. */
export function refusal(file, limitMb) {
  if (limitMb && file.size > limitMb * MB) return `This picture is larger than ${limitMb} MB, so it would not be kept.`;
  return file.size === 0 ? "This file is empty. Take the picture once more." : "";
}

function tell(form, sentence, again) {
  const place = document.querySelector("[data-shoot-says]");
  if (!place) return;
  place.replaceChildren(sentence);
  place.hidden = sentence === "";
  if (again) {
    const button = Object.assign(document.createElement("button"), { type: "button", textContent: "Send it again" });
    button.addEventListener("click", () => form.requestSubmit());
    place.append(" ", button);
  }
  if (sentence) place.scrollIntoView({ block: "center" });
}

async function send(form) {
  tell(form, "Sending …", false);
  try {
    const answer = await fetch(form.action, { method: "POST", body: new FormData(form), headers: { Accept: "text/html" } });
    if (new URL(answer.url).pathname === "/sign-in" || answer.status === 401) tell(form, SIGNED_OUT, true);
    else if (answer.redirected || REDRAWN.has(answer.status)) await show(answer);
    else tell(form, FAULT, true);
  } catch {
    tell(form, NO_SIGNAL, true);
  }
}

/** What belongs to a form: inside it, or elsewhere on the page under its id or the number of its owed picture. */
function parts(form, name) {
  const outside = form.id ? document.querySelectorAll(`[data-${name}="${form.id}"]`) : [];
  return [...form.querySelectorAll(`[data-${name}=""]`), ...outside];
}

export function start(form) {
  const field = form.querySelector("input[type=file]");
  let busy = false;
  form.hidden = false;
  for (const part of parts(form, "plain")) part.hidden = true;
  for (const part of parts(form, "opens")) {
    part.hidden = false;
    part.addEventListener("click", () => field.click());
  }
  for (const link of document.querySelectorAll(`a[data-shoots="${form.elements.slot.value}"]`)) {
    link.addEventListener("click", (event) => {
      event.preventDefault();
      field.click();
    });
  }
  field.addEventListener("change", () => {
    if (!field.files.length) return;
    const wrong = refusal(field.files[0], Number(form.dataset.limitMb));
    if (wrong) tell(form, wrong, false);
    else form.requestSubmit();
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (busy) return;
    busy = true;
    await send(form);
    busy = false;
  });
}
