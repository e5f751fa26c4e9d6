// The drawing of a surface as a thing to be touched: nearer and further away, and, on its own sheet, placing and moving
// what is hidden in it. Without this it lies there to be slid along, with forms to be filled in.

import { listen } from "./gestures.js";
import { startMoving } from "./moving.js";
import { startPlacing } from "./placing.js";
import { View } from "./view.js";

const TALLEST = 0.95; // of its width, on a narrow screen

/** Both drawings into one pane, as high as the first one of them needs. */
function paneFor(element) {
  const drawings = [...element.querySelectorAll("svg[data-scale]")];
  const slides = element.querySelector(".wide");
  const pane = document.createElement("div");
  pane.className = "pane";
  pane.tabIndex = 0;
  pane.setAttribute("role", "group");
  const name = slides.getAttribute("aria-label").replace(/, slides sideways$/, "");
  pane.setAttribute("aria-label", `${name}. Plus and minus bring it nearer and further away, 0 shows the whole of it.`);
  const narrow = element.querySelector(".only-narrow");
  slides.replaceWith(pane);
  narrow.remove();
  pane.append(...drawings);
  return [pane, drawings];
}

function shape(pane, drawings) {
  const [first, width] = [drawings[matchMedia("(max-width: 63.99em)").matches ? 0 : 1], pane.clientWidth];
  const [, , wide, high] = first.dataset.whole.split(" ").map(Number);
  const least = first === drawings[0] ? TALLEST * width : 0;
  pane.style.height = `${Math.max(least, (high / wide) * width)}px`;
}

function zoomButtons(element, view) {
  const bar = element.querySelector("[data-near]");
  bar.hidden = false;
  const does = { in: () => view.zoom(1.6), out: () => view.zoom(1 / 1.6), whole: () => view.whole() };
  for (const button of bar.querySelectorAll("[data-zoom]")) {
    button.addEventListener("click", () => does[button.dataset.zoom]());
    const useless = () => button.setAttribute("aria-disabled", String(button.dataset.zoom !== "in" && view.isWhole));
    view.listeners.add(useless);
    useless();
  }
}

/** What the facts beside the drawing say, and the two ways from the left edge of the drawing to the surface's own corner. */
function surfaceOf(element) {
  const { unit, length, height, mirror, corner, up, studs } = element.dataset;
  const whole = Number(length);
  const turn = (x) => (mirror ? whole - x : x);
  return { unit, length: whole, height: Number(height), corner, up, studs: studs.split(" ").filter(Boolean).map(Number), turn };
}

export function start(element) {
  const [pane, drawings] = paneFor(element);
  for (const drawing of drawings) drawing.dataset.whole = drawing.getAttribute("viewBox");
  shape(pane, drawings);
  const view = new View(pane, drawings);
  zoomButtons(element, view);
  pane.addEventListener("focusin", (event) => {
    const at = event.target.closest("a[data-at]")?.dataset.at.split(" ").map(Number);
    if (at && pane.matches(":has(:focus-visible)")) view.reveal(surface ? surface.turn(at[0]) : at[0], at[1]);
  });
  addEventListener("resize", () => {
    shape(pane, drawings);
    view.whole();
  });
  const forms = document.querySelector("[data-touch]");
  const surface = forms && surfaceOf(forms);
  const modes = surface ? [startPlacing(view, surface, forms), startMoving(view, surface, forms)] : [];
  const active = () => modes.find((mode) => mode.on);
  for (const mode of modes) mode.before = () => modes.filter((other) => other !== mode).forEach((other) => other.leave());
  pane.addEventListener("click", (event) => active() && event.preventDefault()); // tags lead nowhere meanwhile
  listen(view, {
    hold: (event) => active()?.hold?.(event) ?? null,
    tapped: (event) => active()?.tapped?.(event),
    key: (event) => active()?.key(event) ?? false,
  });
}
