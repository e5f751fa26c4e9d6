// Fingers, mouse, wheel and keys upon a view. Seen whole, one finger up or down scrolls the page as everywhere (the
// style sheet's touch-action); nearer, it moves the drawing.

const MOVED = 6; // pixels after which a finger is no tap any more
const KEYS = { "+": 1.4, "=": 1.4, "-": 1 / 1.4, _: 1 / 1.4 };
const ARROWS = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

const apart = ([a, b]) => Math.hypot(a.x - b.x, a.y - b.y);
const middle = ([a, b]) => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** `hold` may take a finger for itself ({ move, end }); `tapped(event)` is told of one that went nowhere. */
export function listen(view, { hold, tapped, key }) {
  const { pane } = view;
  const fingers = new Map();
  let held = null;
  let dragged = false;
  let pinch = null;

  function down(event) {
    if (event.pointerType === "mouse" && event.button !== 0) return;
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY, fromX: event.clientX, fromY: event.clientY });
    if (fingers.size > 1) {
      held?.end(null);
      held = null;
      dragged = true;
      const two = [...fingers.values()].slice(-2);
      const { x, y } = middle(two);
      pinch = { at: view.at(x, y), size: view.size, apart: Math.max(1, apart(two)) };
      return;
    }
    dragged = false;
    held = hold(event);
  }

  function move(event) {
    const finger = fingers.get(event.pointerId);
    if (!finger) return;
    const before = { ...finger };
    Object.assign(finger, { x: event.clientX, y: event.clientY });
    const now = [...fingers.values()];
    if (now.length === 2) {
      const { x, y } = middle(now);
      view.hold(pinch.at, (pinch.size * apart(now)) / pinch.apart, x, y);
      return;
    }
    if (!dragged && Math.hypot(finger.x - finger.fromX, finger.y - finger.fromY) < MOVED) return;
    if (!dragged) {
      dragged = true;
      pane.setPointerCapture(event.pointerId);
    }
    if (held) held.move(event);
    else view.pan(event.clientX - before.x, event.clientY - before.y);
  }

  function up(event) {
    if (!fingers.delete(event.pointerId)) return;
    const kept = event.type === "pointerup" ? event : null;
    held?.end(dragged ? kept : null);
    held = null;
    if (kept && !dragged && fingers.size === 0) tapped(event);
  }

  pane.addEventListener("pointerdown", down);
  pane.addEventListener("pointermove", move);
  pane.addEventListener("pointerup", up);
  pane.addEventListener("pointercancel", up);
  pane.addEventListener("dragstart", (event) => event.preventDefault());
  pane.addEventListener("touchmove", (event) => event.touches.length > 1 && event.preventDefault(), { passive: false });
  pane.addEventListener("click", (event) => dragged && (event.preventDefault(), event.stopPropagation()), true);
  pane.addEventListener("wheel", (event) => wheel(view, event), { passive: false });
  pane.addEventListener("keydown", (event) => press(view, event, key));
}

/** The wheel scrolls the page, unless it is meant: with Ctrl (as a touchpad's pinch comes), or once the drawing has the focus. */
function wheel(view, event) {
  if (!event.ctrlKey && !event.metaKey && !view.pane.contains(document.activeElement)) return;
  event.preventDefault();
  view.zoom(Math.exp(-event.deltaY / (event.ctrlKey ? 100 : 400)), event.clientX, event.clientY);
}

function press(view, event, key) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (key(event)) {
    event.preventDefault();
    return;
  }
  const by = ARROWS[event.key];
  if (event.key in KEYS) view.zoom(KEYS[event.key]);
  else if (event.key === "0") view.whole();
  else if (by && !view.isWhole) view.pan(by[0] * 60, by[1] * 60);
  else return;
  event.preventDefault();
}
