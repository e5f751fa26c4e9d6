// On every page: what is not sent yet goes, and a worker keeps sheets for the wall. Comes after the page is there; without it the page is read as it is.

import { start as startSending } from "./outbox.js";
import * as store from "./store.js";
import { base, draw } from "./unsent.js";

const EVERY = 15 * 60 * 1000; // ms between two rounds of keeping sheets

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
  document.addEventListener("studbay:drawn", draw);
  document.addEventListener("studbay:held", ({ detail }) => {
    if (detail === "signedOut") tellOnce("signed-out", "You are signed out, so nothing is sent. All of it is kept on this phone.", `/sign-in?next=${encodeURIComponent(location.pathname)}`, "Sign in again");
  });
  draw();
  startSending();
  watchRoom();
  watchVersion();
  navigator.serviceWorker?.addEventListener("message", ({ data }) => {
    if (data?.fresh) tellOnce("fresh", "The line was slow; the sheet as it is now has come.", location.href, "Show it");
  });
  if ("serviceWorker" in navigator) keepSheets().catch(() => {});
}
