// A form as a sending: its fields, its files, and what the phone knew when it was filled in.

import { freshId, localTime } from "./ids.js";

/** In a few words, what a form records: its own words for it, else the heading of the page and the button. */
function inWords(form, submitter) {
  const heading = document.querySelector("h1")?.textContent.trim() ?? document.title;
  const button = submitter?.textContent.trim() ?? "";
  const says = button && button !== heading && !/^(Save|Send|Record|Put)\b/.test(button); // what only repeats the page is left out
  return form.dataset.what ?? (says ? `${heading}: ${button}` : heading);
}

/** What each field held when the form was opened, for a form that edits: the other end can tell what was changed here. */
function opened(form) {
  const held = new Map();
  for (const field of form.elements) {
    if (!field.name || ["file", "hidden", "submit", "button"].includes(field.type)) continue;
    const values = held.get(field.name) ?? held.set(field.name, []).get(field.name);
    if (field.options) values.push(...[...field.options].filter((one) => one.defaultSelected).map((one) => one.value));
    else if (!["checkbox", "radio"].includes(field.type) || field.defaultChecked) values.push(field.defaultValue);
  }
  return [...held].flatMap(([name, values]) => (values.length ? values : [""]).map((value) => [`was:${name}`, value]));
}

/** A form as it is kept and sent, and the files chosen in it; `before` are those kept with it already. */
export function taken(form, submitter, id, before) {
  const data = new FormData(form);
  if (submitter?.name) data.append(submitter.name, submitter.value);
  const to = new URL(submitter?.getAttribute("formaction") ?? form.getAttribute("action") ?? "", location.href);
  const files = [...data].filter(([, value]) => value instanceof File && value.name && value.size);
  const edits = "edits" in form.dataset && !("redrawn" in document.documentElement.dataset);
  const fields = [...[...data].filter(([, value]) => !(value instanceof File)), ...(edits ? opened(form) : [])];
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
  return { entry, data, chosen: files.map(([, file]) => file) };
}
