// Gives elements that ask for it (data-behaviour="stepper") their behaviour. Every page works without any of these.
// A name not in the map is ignored, so text in a page can never choose what is loaded.

const BEHAVIOURS = new Map([
  ["camera", () => import("./camera.js")],
  ["drawing", () => import("./drawing.js")],
  ["log", () => import("./log.js")],
  ["notsent", () => import("./notsent.js")],
  ["order", () => import("./order.js")],
  ["pin", () => import("./pin.js")],
  ["shoot", () => import("./shoot.js")],
  ["sender", () => import("./sender.js")],
  ["stepper", () => import("./stepper.js")],
  ["visit", () => import("./visit.js")],
]);

const started = new WeakMap();

/** Starts each wanted behaviour once per element: a module exports `start(element)`. */
async function startOne(element, name) {
  const names = started.get(element) ?? new Set();
  if (!BEHAVIOURS.has(name) || names.has(name)) return;
  started.set(element, names.add(name));
  const module = await BEHAVIOURS.get(name)();
  module.start(element);
}

/** What is recorded in a build is kept on this phone before it is sent; what goes out to viewers only goes at once. */
async function keepForms() {
  const own = (form) => /^\/builds\/[^/]+\/(?!episodes\b)/.test(new URL(form.getAttribute("action") ?? "", location.href).pathname);
  const plain = (form) => !/\b(shoot|sender)\b/.test(form.dataset.behaviour ?? "") && !form.matches("[hx-post]");
  const forms = [...document.querySelectorAll("form[method=post]")].filter((form) => own(form) && plain(form));
  for (const form of forms) startOne(form, "sender");
}

function startAll() {
  keepForms();
  for (const element of document.querySelectorAll("[data-behaviour]")) {
    for (const name of element.dataset.behaviour.split(/\s+/)) startOne(element, name);
  }
}

/** Whether something is typed that loading the page again could lose. */
function typed() {
  const fields = [...document.querySelectorAll("input, textarea")];
  return fields.some((field) => field.value !== field.defaultValue || field.checked !== field.defaultChecked);
}

// Going back shows a kept copy. What may be covered may have changed since: ask again.
window.addEventListener("pageshow", (event) => {
  const [come] = performance.getEntriesByType("navigation");
  if ((event.persisted || come?.type === "back_forward") && !typed()) location.reload();
});

startAll();
// Counts and keeping come after the page: on a bad line they shall not be in its way.
window.addEventListener("load", () => setTimeout(() => import("./waiting.js").then((waiting) => waiting.start(), () => {}), 300));
document.addEventListener("htmx:after:process", startAll);
document.addEventListener("studbay:drawn", startAll); // a module put a new page in place of this one
