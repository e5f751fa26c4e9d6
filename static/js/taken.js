// A form as a sending: its fields, its files, and what the phone knew when it was filled in.

import { freshId, localTime } from "./ids.js";

/** In a few words, what a form records: its own words for it, else the heading of the page and the button. */
function inWords(form, submitter) {
  const heading = document.querySelector("h1")?.textContent.trim() ?? document.title;
  const button = submitter?.textContent.trim() ?? "";
  return form.dataset.what ?? (button && button !== heading ? `${heading}: ${button}` : heading);
}

/** A form as it is kept and sent, and the bytes of its files. */
export function taken(form, submitter, id, before) {
  const data = new FormData(form);
  if (submitter?.name) data.append(submitter.name, submitter.value);
  const to = new URL(submitter?.getAttribute("formaction") ?? form.getAttribute("action") ?? "", location.href);
  const files = [...data].filter(([, value]) => value instanceof File && value.name && value.size);
  const fields = [...data].filter(([, value]) => !(value instanceof File));
  const entry = {
    id,
    turn: freshId(), // another with each press: what is on its way is not taken for what took its place
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
