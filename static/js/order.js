// A list put in order by dragging its handles, or by the arrow keys on one of them. Without this the buttons do the same.
// Enter or leaving the handle puts the row down where it is, Escape puts it back; only then something is sent.

export function start(list) {
  const says = list.parentElement.querySelector("[data-order-says]");
  for (const row of list.querySelectorAll(":scope > [data-row]")) handle(list, row, says);
}

const rowsOf = (list) => [...list.querySelectorAll(":scope > [data-row]")];

function handle(list, row, says) {
  const grip = row.querySelector("[data-grip]");
  const form = row.querySelector("form");
  let [from, held] = [null, false];

  const tell = () => {
    const rows = rowsOf(list);
    if (says) says.textContent = `${row.dataset.row}: ${rows.indexOf(row) + 1} of ${rows.length}`;
  };
  const take = () => {
    from ??= rowsOf(list).indexOf(row);
    row.classList.add("held");
  };
  // The others move around the row in the hand: taken out and put in again it would lose the focus and the pointer.
  const place = (at) => {
    const rows = rowsOf(list);
    const now = rows.indexOf(row);
    if (at < now) row.after(...rows.slice(at, now));
    else if (at > now) row.before(...rows.slice(now + 1, at + 1));
    tell();
  };
  const back = () => {
    if (from === null) return;
    place(from);
    from = null;
    row.classList.remove("held");
  };
  const put = () => {
    const at = rowsOf(list).indexOf(row);
    if (from === null || at === from) return back();
    const to = Object.assign(document.createElement("input"), { type: "hidden", name: "to", value: `${at + 1}` });
    form.append(to);
    from = null;
    form.requestSubmit();
    return undefined;
  };

  grip.hidden = false;
  grip.addEventListener("pointerdown", (event) => {
    held = true;
    take();
    grip.setPointerCapture(event.pointerId);
    event.preventDefault();
    grip.focus({ preventScroll: true });
  });
  grip.addEventListener("pointermove", (event) => {
    if (!held) return;
    const others = rowsOf(list).filter((one) => one !== row);
    const at = others.findIndex((one) => {
      const box = one.getBoundingClientRect();
      return event.clientY < box.top + box.height / 2;
    });
    place(at < 0 ? others.length : at);
    edge(event.clientY);
  });
  grip.addEventListener("pointerup", () => {
    held = false;
    put();
  });
  grip.addEventListener("pointercancel", () => {
    held = false;
    back();
  });
  grip.addEventListener("keydown", (event) => {
    const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
    if (by) {
      take();
      const rows = rowsOf(list);
      place(Math.min(Math.max(rows.indexOf(row) + by, 0), rows.length - 1));
    } else if (event.key === "Enter" || event.key === " ") put();
    else if (event.key === "Escape") back();
    else return;
    event.preventDefault();
  });
  grip.addEventListener("blur", () => {
    if (!held) put();
  });
}

/** Near an edge of the window the page follows. */
function edge(y) {
  if (y < 60) scrollBy(0, -14);
  else if (y > innerHeight - 60) scrollBy(0, 14);
}
