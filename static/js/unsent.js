// How much is not sent yet, on every page, and what of it could change what stands there.

import { shownMoment } from "./ids.js";
import * as store from "./store.js";

/** The path of the build this page is of. */
export const base = () => /^\/builds\/[^/]+/.exec(location.pathname)?.[0] ?? "";

function marks(entries) {
  const html = document.documentElement;
  const mine = entries.filter((entry) => entry.action.startsWith(`${base()}/`));
  for (const place of document.querySelectorAll("[data-verdict]")) {
    place.querySelector(".unsure")?.remove();
    if (!mine.length && (!html.dataset.keptAt || place.classList.contains("no"))) continue; // the line above says how old a no is
    const known = html.dataset.keptAt ? `Last known ${shownMoment(new Date(html.dataset.keptAt))}. ` : "";
    const line = document.createElement("p");
    line.className = "unsure";
    line.append(known, mine.length ? `Not sent yet, and could change this: ${mine.slice(0, 4).map((entry) => entry.what).join("; ")}${mine.length > 4 ? `; and ${mine.length - 4} more` : ""}.` : "Nothing recorded on this phone waits.");
    place.querySelector(".say")?.append(line);
  }
  for (const entry of mine) {
    const slot = entry.fields.find(([name]) => name === "slot")?.[1];
    const item = slot && document.querySelector(`form input[name=slot][value="${CSS.escape(slot)}"]`)?.closest("li");
    if (item && !item.querySelector(".unsent")) item.append(Object.assign(document.createElement("p"), { className: "s unsent", textContent: "Taken, not sent yet." }));
  }
}

/** The count in the strip and in the title block, leading to the list. */
export async function draw() {
  const entries = await store.list().catch(() => []);
  for (const place of document.querySelectorAll("[data-unsent]")) {
    place.hidden = entries.length === 0;
    place.querySelector("[data-unsent-count]").textContent = entries.length;
  }
  marks(entries);
}

document.addEventListener("studbay:outbox", draw);
