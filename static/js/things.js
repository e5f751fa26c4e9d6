// What lies in the drawing and may be moved, and which of it a finger means.

const REACH = 32; // pixels around a symbol

/** `x` from the surface's own corner, as it is on record. */
export function thingsOf(view) {
  return [...view.sheet.svg.querySelectorAll("a[data-at]")].map((link) => {
    const [x, y] = link.dataset.at.split(" ").map(Number);
    const href = link.getAttribute("href");
    return { href, id: href.split("/").pop(), name: link.getAttribute("aria-label").replace(", ", " "), x, y };
  });
}

/** The thing whose tag is pressed, else the one whose symbol is nearest to the finger. */
export function nearest(view, surface, things, event) {
  const href = event.target.closest?.("a")?.getAttribute("href");
  if (href) return things.find((thing) => thing.href === href);
  const box = view.pane.getBoundingClientRect();
  const [left, top, width] = view.box;
  const size = box.width / width;
  const off = (thing) => {
    const [right, down] = view.place(view.shown, surface.turn(thing.x), thing.y);
    return Math.hypot((right - left) * size + box.left - event.clientX, (down - top) * size + box.top - event.clientY);
  };
  const [best] = things.map((thing) => ({ thing, off: off(thing) })).sort((a, b) => a.off - b.off);
  return best && best.off < REACH ? best.thing : undefined;
}
