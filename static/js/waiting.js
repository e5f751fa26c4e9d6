// On every page: how much is not sent yet, what of it could change what stands here, and the worker that keeps sheets for
// the wall. Comes after the page is there; without it the page is read as it is.

import { start as startSending } from "./outbox.js";
import * as store from "./store.js";

const EVERY = 15 * 60 * 1000; // ms between two rounds of keeping sheets
const base = () => /^\/builds\/[^/]+/.exec(location.pathname)?.[0] ?? "";

function marks(entries) {
  const html = document.documentElement;
  const mine = entries.filter((entry) => entry.action.startsWith(`${base()}/`));
  for (const place of document.querySelectorAll("[data-verdict]")) {
    place.querySelector(".unsure")?.remove();
    if (!html.dataset.keptAt && !mine.length) continue;
    const known = html.dataset.keptAt ? `Last known ${new Date(html.dataset.keptAt).toLocaleString([], { weekday: "long", day: "numeric", month: "long", hour: "2-digit", minute: "2-digit" })}. ` : "";
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
async function draw() {
  const entries = await store.list().catch(() => []);
  for (const place of document.querySelectorAll("[data-unsent]")) {
    place.hidden = entries.length === 0;
    place.querySelector("[data-unsent-count]").textContent = entries.length;
  }
  marks(entries);
}

function tellOnce(id, words, href, label) {
  if (document.getElementById(id)) return;
  const line = Object.assign(document.createElement("div"), { id, className: "said" });
  line.setAttribute("role", "status");
  const link = Object.assign(document.createElement("a"), { href, textContent: label });
  line.append(Object.assign(document.createElement("p"), { textContent: `${words} ` }));
  line.firstChild.append(link);
  document.querySelector("main").prepend(line);
}

/** An old page and a newer program: what waits is sent first, then the page is loaded anew. */
async function watchVersion() {
  const mine = document.documentElement.dataset.version;
  const answer = await fetch("/not-kept", { method: "HEAD", cache: "no-store" }).catch(() => null);
  const theirs = answer?.headers.get("Studbay-Version");
  if (!mine || !theirs || theirs === mine) return;
  const left = (await store.list().catch(() => [])).filter((entry) => entry.state === "waiting").length;
  const words = left ? `Studbay is newer than this page. Not sent yet: ${left}; that goes first.` : "Studbay is newer than this page, and all is sent.";
  tellOnce("newer", words, location.href, "Load the page anew");
}

/** Room for what is recorded: said before it matters. */
async function watchRoom() {
  const { quota = 0, usage = 0 } = (await navigator.storage?.estimate?.()) ?? {};
  if (quota && quota - usage < 100 * 1024 * 1024) {
    tellOnce("room", `This phone has ${Math.max(0, Math.round((quota - usage) / 1048576))} MB left for Studbay. Make room before you go on site without signal.`, "/not-sent", "What is kept here");
  }
}

async function keepSheets() {
  const registration = await navigator.serviceWorker.register("/sw.js", { type: "module" });
  const whole = (await store.known("kept").catch(() => null)) ?? {};
  const here = base();
  const due = whole.base !== here || Date.now() - new Date(whole.at ?? 0) > EVERY;
  if (here && due && !navigator.connection?.saveData && !document.documentElement.dataset.keptAt) {
    await navigator.serviceWorker.ready;
    (registration.active ?? navigator.serviceWorker.controller)?.postMessage({ keep: here });
  }
}

export function start() {
  document.addEventListener("studbay:outbox", draw);
  document.addEventListener("studbay:drawn", draw);
  document.addEventListener("studbay:held", ({ detail }) => {
    if (detail === "signedOut") tellOnce("signed-out", "You are signed out, so nothing is sent. All of it is kept on this phone.", `/sign-in?next=${encodeURIComponent(location.pathname)}`, "Sign in again");
  });
  draw();
  startSending();
  watchRoom();
  watchVersion();
  if ("serviceWorker" in navigator) keepSheets().catch(() => {});
}
