// Moving something: only while "Move" is pressed, so that no finger that scrolls moves a thing. What was let go is saved by
// saying why it lies elsewhere: mistyped, or moved.

import { field, read, snap, step, words } from "./lengths.js";
import { byArrow, settleUp, within } from "./placing.js";
import { Spot } from "./spot.js";
import { nearest, thingsOf } from "./things.js";

export function startMoving(view, surface, root) {
  const form = root.querySelector("[data-move]");
  const [where, id] = ["[data-where]", "[name=item]"].map((css) => form.querySelector(css));
  const fields = [form.elements.x, form.elements.y];
  const bar = document.querySelector("[data-modes]");
  const [old, spot, things] = [new Spot(view, "old"), new Spot(view), thingsOf(view)];
  const saving = form.querySelectorAll(".two button");
  const mode = { on: false, chosen: null, before() {}, leave, open, choose, put, things, form, fields };

  function put(x, y) {
    const { name, x: fromX, y: fromY } = mode.chosen;
    const shown = (nm) => words(nm, surface.unit);
    const change = (from, to) => (from === to ? shown(to) : `${shown(from)} → ${shown(to)}`);
    mode.spot = [x, y];
    spot.put(surface.turn(x), y, surface.turn(0));
    where.textContent = `${name}: ${change(fromX, x)} from ${surface.corner}, ${change(fromY, y)} ${surface.up}`;
    for (const one of saving) one.disabled = x === fromX && y === fromY;
  }

  function fill(x, y) {
    put(x, y);
    [fields[0].value, fields[1].value] = [field(x, surface.unit), field(y, surface.unit)];
  }

  function choose(thing) {
    mode.chosen = thing;
    id.value = thing.id;
    form.classList.add("set");
    old.put(surface.turn(thing.x), thing.y, surface.turn(0));
    fill(thing.x, thing.y);
  }

  function open() {
    mode.before();
    mode.on = true;
    view.pane.dataset.mode = "moving";
    root.classList.add("up");
    [bar.hidden, form.hidden] = [true, false];
    view.show();
    if (!mode.chosen) where.textContent = "Drag what lies elsewhere, or tap it and use the arrow keys.";
  }

  function leave() {
    [mode.on, mode.chosen] = [false, null];
    delete view.pane.dataset.mode;
    root.classList.remove("up");
    form.classList.remove("set");
    [bar.hidden, form.hidden] = [false, true];
    for (const mark of [old, spot]) mark.hide();
  }

  mode.hold = (event) => {
    const thing = nearest(view, surface, things, event);
    if (!thing) return null;
    const [fromX, fromY] = view.at(event.clientX, event.clientY);
    return {
      move(now) {
        if (mode.chosen !== thing) choose(thing);
        const [x, y] = view.at(now.clientX, now.clientY);
        const along = surface.turn(surface.turn(thing.x) + x - fromX);
        fill(within(snap(along, step(surface.unit)), surface.length), settleUp(thing.y + y - fromY, surface));
      },
      end(now) {
        if (!now && mode.chosen === thing) choose(thing);
      },
    };
  };
  mode.tapped = (event) => {
    const thing = nearest(view, surface, things, event);
    if (thing) choose(thing);
  };
  mode.key = (event) => {
    const by = mode.chosen && byArrow(event.key, surface, view.sheet.way);
    if (event.key === "Escape") leave();
    else if (by) fill(within(mode.spot[0] + by[0], surface.length), within(mode.spot[1] + by[1], surface.height));
    else return false;
    return true;
  };
  return wire(mode, view, surface);
}

/** Fields, buttons, and the tags, of which each is chosen by the keyboard too. */
function wire(mode, view, surface) {
  const { form, fields, things } = mode;
  const typed = () => {
    const [x, y] = fields.map((one) => read(one.value, surface.unit));
    if (x !== null && y !== null) mode.put(x, y);
    else for (const one of form.querySelectorAll(".two button")) one.disabled = false; // the server reads it
  };
  for (const one of fields) one.addEventListener("input", typed);
  view.pane.addEventListener("click", (event) => {
    const link = mode.on && event.target.closest("a");
    const thing = link && things.find((one) => one.href === link.getAttribute("href"));
    if (thing && event.detail === 0) mode.choose(thing); // by the keyboard; a finger's tap has come before
  });
  const [button, leave] = [document.querySelector("[data-mode=moving]"), form.querySelector("[data-leave]")];
  [button.hidden, leave.hidden] = [false, false];
  button.addEventListener("click", () => (mode.open(), view.pane.focus({ preventScroll: true })));
  leave.addEventListener("click", () => (mode.leave(), button.focus()));
  const refused = "open" in form.dataset && things.find((one) => one.id === form.querySelector("[name=item]").value);
  if (refused) {
    const kept = fields.map((one) => one.value);
    mode.open();
    mode.choose(refused);
    [fields[0].value, fields[1].value] = kept;
    typed();
  }
  return mode;
}
