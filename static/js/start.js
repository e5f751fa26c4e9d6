// Gives elements that ask for it (data-behaviour="stepper") their behaviour. Every page works without any of these.
// A name not in the map is ignored, so text in a page can never choose what is loaded.

const BEHAVIOURS = new Map([
  ["camera", () => import("./camera.js")],
  ["drawing", () => import("./drawing.js")],
  ["log", () => import("./log.js")],
  ["order", () => import("./order.js")],
  ["pin", () => import("./pin.js")],
  ["shoot", () => import("./shoot.js")],
  ["sender", () => import("./sender.js")],
  ["stepper", () => import("./stepper.js")],
  ["visit", () => import("./visit.js")],
  ["voice", () => import("./voice.js")],
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

function startAll() {
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
document.addEventListener("htmx:after:process", startAll);
document.addEventListener("studbay:drawn", startAll); // a module put a new page in place of this one
