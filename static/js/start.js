// Gives elements that ask for it (data-behaviour="stepper") their behaviour. Every page works without any of these.
// A name not in the map is ignored, so text in a page can never choose what is loaded.

const BEHAVIOURS = new Map([
  ["camera", () => import("./camera.js")],
  ["drawing", () => import("./drawing.js")],
  ["log", () => import("./log.js")],
  ["notsent", () => import("./notsent.js")],
  ["order", () => import("./order.js")],
  ["pin", () => import("./pin.js")],
  ["points", () => import("./points.js")],
  ["shoot", () => import("./shoot.js")],
  ["sender", () => import("./sender.js")],
  ["stepper", () => import("./stepper.js")],
  ["visit", () => import("./visit.js")],
  ["voice", () => import("./voice.js")],
]);

const started = new WeakMap();

/** Starts each wanted behaviour once per element: a module exports `start(element)`. */
async function startOne(element, name) {
  const names = started.get(element) ?? new Map();
  if (!BEHAVIOURS.has(name)) return;
  started.set(element, names);
  if (!names.has(name)) names.set(name, BEHAVIOURS.get(name)().then((module) => void module.start(element)));
  await names.get(name).catch((fault) => {
    names.delete(name); // another try when it is asked for again
    throw fault;
  });
}

/** What is recorded in a build is kept on this phone before it is sent; what goes out to viewers only goes at once. */
function isKept(form) {
  const path = new URL(form.getAttribute("action") ?? "", location.href).pathname;
  return form.method === "post" && /^\/builds\/[^/]+\/(?!episodes\b)/.test(path) && !form.matches("[hx-post], [data-behaviour~=shoot]");
}

const ready = new WeakSet();
async function keepForm(form) {
  await startOne(form, "sender");
  ready.add(form);
}

// A press before the module is here waits for it. Where it cannot come the form goes as any other, if the line is there.
async function sendLate(form, button) {
  try {
    await keepForm(form);
    form.requestSubmit(button);
  } catch {
    const there = await fetch("/not-kept", { method: "HEAD", cache: "no-store" }).catch(() => null);
    ready.add(form);
    if (there) return form.requestSubmit(button);
    ready.delete(form);
    const line = Object.assign(document.createElement("p"), { className: "err", textContent: "No signal yet. What you typed is still here: keep this page open and press again." });
    line.setAttribute("role", "alert");
    form.querySelector(".err[role=alert]")?.remove();
    form.prepend(line);
  }
  return null;
}

document.addEventListener(
  "submit",
  (event) => {
    if (!isKept(event.target) || ready.has(event.target)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    sendLate(event.target, event.submitter);
  },
  true,
);

function startAll() {
  for (const form of document.querySelectorAll("form[method=post]")) if (isKept(form)) keepForm(form).catch(() => {});
  for (const element of document.querySelectorAll("[data-behaviour]")) {
    for (const name of element.dataset.behaviour.split(/\s+/)) startOne(element, name).catch(() => {});
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
if ("keptAt" in document.documentElement.dataset) import("./redate.js").then(({ redate }) => redate(), () => {});
// Counts and keeping come after the page: on a bad line they shall not be in its way.
window.addEventListener("load", () => setTimeout(() => import("./waiting.js").then((waiting) => waiting.start(), () => {}), 300));
document.addEventListener("htmx:after:process", startAll);
document.addEventListener("studbay:drawn", startAll); // a module put a new page in place of this one
