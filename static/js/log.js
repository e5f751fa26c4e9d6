// The day's form, easier: another day is asked for only when wanted, a finished task is also worked on, pictures add up.

import { start as startCamera } from "./camera.js";

/** Another day has its own field, out of the way until it is chosen or has something in it. */
function watchDay(form) {
  const { day, other_day: other } = form.elements;
  const cell = other.parentElement;
  const fit = () => {
    cell.hidden = day.value !== "other" && other.value === "";
  };
  day.addEventListener("change", () => {
    if (day.value !== "other") other.value = "";
    fit();
  });
  form.addEventListener("change", fit);
  fit();
}

function watchTicks(form) {
  form.addEventListener("change", ({ target }) => {
    const other = { worked: "finished", finished: "worked" }[target.name];
    if (!other || target.checked !== (target.name === "finished")) return;
    const twin = form.querySelector(`[name=${other}][value="${target.value}"]`);
    if (twin) twin.checked = target.checked;
  });
}

export function start(form) {
  watchDay(form);
  watchTicks(form);
  startCamera(form);
}
