// Placing something: a tap marks the spot and fills in its offsets, and the kind that is pressed then saves it.

import { field, nudge, read, snap, step, words } from "./lengths.js";
import { Spot } from "./spot.js";

const STUD = 38_100_000; // 1 1/2 in
const BOX = 28_575_000; // 1 1/8 in: half of a narrow box, whose side is nailed to a stud (common practice, no source)
const NEAR = 50_800_000; // 2 in from a stud's face

export const within = (value, most) => Math.min(Math.max(value, 0), most);

/** The offset a finger means: on the middle of a stud, with a box's width beside it, else on a mark of the tape. */
export function settle(x, surface) {
  const size = step(surface.unit);
  const stud = surface.studs.reduce((best, one) => (Math.abs(x - one) < Math.abs(x - best) ? one : best), Infinity);
  const [off, face] = [x - stud, Math.abs(x - stud) - STUD / 2];
  if (face <= 0) return { x: within(snap(stud, size), surface.length), beside: "on" };
  if (face < NEAR) return { x: within(snap(stud + Math.sign(off) * (STUD / 2 + BOX), size), surface.length), beside: "beside" };
  return { x: within(snap(x, size), surface.length), beside: "" };
}

export const settleUp = (y, surface) => within(snap(y, step(surface.unit)), surface.height);

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** How an arrow key changes offsets from the surface's own corner: right on the screen is left where it is mirrored. */
export function byArrow(name, surface, way) {
  const by = ARROWS[name];
  if (!by) return null;
  const turned = surface.turn(0) === 0 ? 1 : -1;
  return [by[0] * turned * nudge(surface.unit), by[1] * -way * nudge(surface.unit)];
}

export function startPlacing(view, surface, root) {
  const form = root.querySelector("[data-place]");
  const [where, exact, leave] = ["[data-where]", "[data-exact]", "[data-leave]"].map((css) => form.querySelector(css));
  const fields = [form.elements.x, form.elements.y];
  const opener = document.querySelector("[data-mode=placing]");
  const bar = document.querySelector("[data-modes]");
  const spot = new Spot(view);
  const mode = { on: false, before() {}, leave: close };

  function say(beside) {
    const member = surface.up === "above the floor" ? "stud" : "joist";
    const near = beside ? `, ${beside} the ${member}` : "";
    const [x, y] = mode.spot;
    where.textContent = `${words(x, surface.unit)} from ${surface.corner}${near}; ${words(y, surface.unit)} ${surface.up}`;
  }

  function put(x, y, beside = "") {
    mode.spot = [x, y];
    spot.put(surface.turn(x), y, surface.turn(0));
    form.classList.add("set");
    say(beside);
  }

  function fill(x, y, beside) {
    put(x, y, beside);
    [fields[0].value, fields[1].value] = [field(x, surface.unit), field(y, surface.unit)];
  }

  function open() {
    mode.before();
    mode.on = true;
    view.pane.dataset.mode = "placing";
    root.classList.add("up");
    form.hidden = false;
    bar.hidden = true;
    if (!mode.spot) where.textContent = "Tap where its centre is.";
    view.show();
  }

  function close() {
    mode.on = false;
    mode.spot = null;
    delete view.pane.dataset.mode;
    root.classList.remove("up");
    form.classList.remove("set");
    form.hidden = true;
    bar.hidden = false;
    spot.hide();
  }

  mode.tapped = (event) => {
    const [x, y] = view.at(event.clientX, event.clientY);
    const found = settle(surface.turn(x), surface);
    fill(found.x, settleUp(y, surface), found.beside);
  };
  mode.key = (event) => {
    if (event.key === "Escape") close();
    else if (event.key === "Enter" && event.target === view.pane) {
      const box = view.pane.getBoundingClientRect();
      mode.tapped({ clientX: box.left + box.width / 2, clientY: box.top + box.height / 2 });
    } else if (mode.spot && byArrow(event.key, surface, view.sheet.way)) {
      const [along, up] = byArrow(event.key, surface, view.sheet.way);
      fill(within(mode.spot[0] + along, surface.length), within(mode.spot[1] + up, surface.height));
    } else return false;
    return true;
  };
  for (const one of fields) {
    one.addEventListener("input", () => {
      const [x, y] = fields.map((typed) => read(typed.value, surface.unit));
      if (x !== null && y !== null) put(x, y);
      else spot.hide();
    });
  }
  opener.setAttribute("role", "button");
  opener.addEventListener("click", (event) => (event.preventDefault(), open(), view.pane.focus({ preventScroll: true })));
  leave.hidden = false;
  leave.addEventListener("click", () => (close(), opener.focus()));
  form.hidden = !("open" in form.dataset);
  if (!form.hidden) open();
  else exact.open = false;
  if (!form.hidden) fields[0].dispatchEvent(new Event("input"));
  return mode;
}
