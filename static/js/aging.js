// How old a kept sheet is, said on the sheet itself.

import { shownMoment } from "./ids.js";
import * as store from "./store.js";

/** Headers of a kept sheet: when it was kept, and the last change it shows. */
export const AT = "Studbay-Kept-At";
export const CHANGED = "Studbay-Changed";
const SHOWS = /<html [^>]*data-changed="([^"]*)"/;

/** "2 hours ago, Saturday 16 May, 14:20". */
function age(moment, now) {
  const minutes = Math.max(0, Math.round((now - moment) / 60000));
  const [count, unit] = minutes < 60 ? [minutes, "minute"] : minutes < 2880 ? [Math.round(minutes / 60), "hour"] : [Math.round(minutes / 1440), "day"];
  return `${count === 0 ? "just now" : `${count} ${unit}${count === 1 ? "" : "s"} ago`}, ${shownMoment(moment)}`;
}

function waits(entries) {
  if (!entries.length) return "";
  return ` <a href="/not-sent">Not sent yet: ${entries.length}</a>. ${entries.length === 1 ? "It is" : "They are"} not in what stands here.`;
}

/** The kept sheet with a line at its top that says how old it is, and marked for the scripts of the page. */
export async function aged(kept, slow = false) {
  const whole = (await store.known("kept").catch(() => null)) ?? {};
  const seen = whole.changed && whole.changed === kept.headers.get(CHANGED) ? whole.at : ""; // nothing had changed by then
  const moment = new Date([kept.headers.get(AT), seen].sort().at(-1));
  const entries = await store.list().catch(() => []);
  const line = `<div class="said kept" role="status"><p><b>${slow ? "A slow line" : "No signal"}. Kept on this phone ${age(moment, new Date())}.</b>${waits(entries)}</p></div>`;
  const text = (await kept.text()).replace("<html ", `<html data-kept-at="${moment.toISOString()}" `);
  const headers = new Headers(kept.headers);
  headers.delete("Content-Encoding");
  headers.delete("Content-Length");
  return new Response(text.replace('<main id="main">', `<main id="main">${line}`), { headers });
}

/** Keeps an answer, with the moment and the last change it shows. */
export async function put(cache, request, answer) {
  const headers = new Headers(answer.headers);
  const text = await answer.text();
  headers.set(AT, new Date().toISOString());
  headers.set(CHANGED, SHOWS.exec(text)?.[1] ?? "");
  await cache.put(request, new Response(text, { headers }));
}
