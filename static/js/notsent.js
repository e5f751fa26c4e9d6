// The list of what waits on this phone, and how it stands with what is kept and with room.

import { asksAgain, show } from "./answer.js";
import { shownMoment } from "./ids.js";
import { send, throwAway } from "./outbox.js";
import * as store from "./store.js";

const MB = 1048576;
const shown = (moment) => shownMoment(new Date(moment));
const plural = (count, word) => `${count} ${word}${count === 1 ? "" : "s"}`;
const element = (name, properties) => Object.assign(document.createElement(name), properties);

function button(words, press) {
  const made = element("button", { type: "button", textContent: words });
  made.addEventListener("click", press);
  return made;
}

/** Asked about once, in its own line: what is thrown away here is nowhere else. */
function throwing(entry, acts) {
  acts.classList.add("asking");
  acts.replaceChildren(
    element("p", { textContent: "It is nowhere else. Throw it away for good?" }),
    button("Throw it away", () => {
      acts.classList.remove("asking");
      throwAway(entry.id);
    }),
    button("Keep it", () => {
      acts.classList.remove("asking");
      document.dispatchEvent(new Event("studbay:outbox"));
    }),
  );
}

function line(entry, look) {
  const item = element("li", { className: entry.state === "needs" ? "needs" : "" });
  const files = entry.files.length ? `, ${plural(entry.files.length, "file")} (${(entry.files.reduce((sum, file) => sum + file.size, 0) / MB).toFixed(1)} MB)` : "";
  const sent = entry.files.filter((file) => file.kept).length;
  item.append(element("b", { textContent: entry.what }), element("span", { className: "s", textContent: `${shown(entry.at)}${files}${sent ? `, ${sent} arrived` : ""}` }));
  if (entry.state === "needs") item.append(element("p", { textContent: `Needs you: ${entry.says || "it was not taken as it is."}` }));
  const words = entry.fields.filter(([name, value]) => value.length > 3 && !/^(sent_id|day|was:.*|.*_(kept|kind))$/.test(name)).map(([, value]) => value).join(" · ");
  if (words) item.append(element("p", { className: "s", textContent: words.slice(0, 300) }));
  const acts = element("div", { className: "acts" });
  if (entry.state === "needs") acts.append(button("Look and decide", () => look(entry)));
  else acts.append(element("a", { className: "btn", href: `${entry.page}#sending=${entry.id}`, textContent: "Open it" }));
  acts.append(button("Throw it away", () => throwing(entry, acts)));
  item.append(acts);
  return item;
}

async function room(place, persist) {
  const estimate = await navigator.storage?.estimate?.();
  if (!estimate?.quota) return;
  const safe = await navigator.storage.persisted?.();
  const left = Math.max(0, Math.round((estimate.quota - estimate.usage) / MB));
  place.textContent = `${Math.round(estimate.usage / MB)} MB used, about ${left.toLocaleString()} MB left. ${safe ? "The phone keeps it for good." : "The phone may throw it away when it runs short, and some do after a week without a visit. Add Studbay to the home screen, and send soon."}`;
  persist.hidden = Boolean(safe) || !navigator.storage.persist;
  persist.onclick = async () => {
    const agreed = await navigator.storage.persist();
    await room(place, persist);
    if (!agreed) place.textContent += " It was asked and said no.";
  };
}

async function keptSheets(place, keep) {
  const whole = await store.known("kept").catch(() => null);
  const build = await store.known("build").catch(() => null);
  if (whole) place.textContent = `${plural(whole.pages, "sheet")}, ${plural(whole.pictures, "small picture")} and ${plural(whole.files, "paper or voice note")}, as of ${shown(whole.at)}.`;
  const worker = navigator.serviceWorker?.controller;
  keep.hidden = !worker || !build;
  keep.onclick = () => {
    worker.postMessage({ keep: build.base });
    keep.disabled = true;
  };
  if (!navigator.serviceWorker) place.textContent = "This address is not secure, so the browser keeps no sheets. What you record is kept all the same, while its page is open. See the sheet Phone.";
}

export function start(element_) {
  const part = (name) => document.querySelector(`[data-${name}]`);
  const says = part("says");
  const tell = (words) => Object.assign(says, { textContent: words, hidden: !words });
  const look = async (entry) => {
    tell("Asking …");
    const outcome = await send(tell, entry).catch(() => null);
    if (outcome?.text) {
      if (outcome.kind === "redrawn" && !asksAgain(outcome, entry.action)) await throwAway(entry.id);
      await show({ ...outcome, entry });
    }
    else tell(outcome?.kind === "signedOut" ? "You are signed out. Sign in again, then look." : "No signal. It can be decided with signal.");
  };
  const draw = async () => {
    const entries = await store.list().catch(() => []);
    const needs = entries.filter((entry) => entry.state === "needs").length;
    part("summary").textContent = entries.length ? `Not sent yet: ${entries.length}.${needs ? ` ${plural(needs, "record")} need${needs === 1 ? "s" : ""} you.` : ""}` : "Everything is sent.";
    if (document.querySelector(".asking")) return; // a question stands there
    part("list").replaceChildren(...entries.map((entry) => line(entry, look)));
    part("reach").hidden = entries.length === needs;
    if (!entries.length) tell("");
  };
  part("send").addEventListener("click", async () => {
    const outcome = await send((words, entry) => tell(`${entry.what}. ${words}`)).catch(() => null);
    tell({ later: "No signal, or the other end does not answer. It is tried again by itself.", signedOut: "You are signed out. Sign in again and it goes by itself." }[outcome?.kind] ?? "");
  });
  navigator.serviceWorker?.addEventListener("message", ({ data }) => {
    if (data?.keeping) part("kept").textContent = `Keeping ${data.keeping} of ${data.all} …`;
    if (data?.full) part("kept").textContent = "This phone has no room for more. Make room, then try again.";
    else if (data?.kept !== undefined) keptSheets(part("kept"), part("keep")).then(() => (part("keep").disabled = false));
  });
  document.addEventListener("studbay:outbox", () => element_.isConnected && draw());
  draw();
  room(part("room"), part("persist"));
  keptSheets(part("kept"), part("keep"));
}
