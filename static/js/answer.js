// The answer to something sent, in the place of the page it was sent from.

/** The sheets of styles that the new page has and this one has not. */
function restyled(page) {
  const here = new Set(Array.from(document.querySelectorAll("link[rel=stylesheet]"), (link) => link.href));
  const missing = [...page.querySelectorAll("link[rel=stylesheet]")].filter((link) => !here.has(new URL(link.getAttribute("href"), location.href).href));
  return Promise.all(missing.map((link) => new Promise((done) => {
    const added = Object.assign(document.createElement("link"), { rel: "stylesheet", href: link.getAttribute("href"), onload: done, onerror: done });
    document.head.append(added);
  })));
}

/** Whether the answer brings the form again that was sent, to be pressed once more. */
export function asksAgain({ text }, action) {
  const page = new DOMParser().parseFromString(text, "text/html");
  return [...page.querySelectorAll("form[method=post]")].some((form) => form.getAttribute("action") === action);
}

/** Puts the answer in place of this page: one fetch, so that what a page says once is not lost on the way. */
export async function show({ kind, text, url, redirected, entry }) {
  const page = new DOMParser().parseFromString(text, "text/html");
  await restyled(page);
  document.title = page.title;
  const html = document.documentElement;
  html.toggleAttribute("data-redrawn", kind === "redrawn"); // what it shows as held is not what the record holds
  html.dataset.settles = kind === "redrawn" && entry ? `${entry.id} ${entry.action}` : "";
  document.documentElement.dataset.changed = page.documentElement.dataset.changed ?? "";
  document.querySelector(".sheet").replaceWith(page.querySelector(".sheet"));
  if (redirected) {
    history.pushState(null, "", url);
    window.addEventListener("popstate", () => location.reload(), { once: true });
  }
  document.dispatchEvent(new Event("studbay:drawn"));
  const alert = document.querySelector("[role=alert]");
  const place = alert ?? document.querySelector("h1"); // the next Tab, and a screen reader, go on from here
  (alert ?? document.body).scrollIntoView();
  Object.assign(place, { tabIndex: -1 }).focus({ preventScroll: true });
}
