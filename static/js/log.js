// The day's form, easier: another day is asked for only when wanted, a finished task is also worked on, pictures add up.

/** Pictures taken one after the other join those chosen before: `all` with `more`, the same file only once. */
export function joined(all, more) {
  const known = new Set(Array.from(all, (file) => `${file.name} ${file.size} ${file.lastModified}`));
  return [...all, ...Array.from(more).filter((file) => !known.has(`${file.name} ${file.size} ${file.lastModified}`))];
}

function asList(files) {
  const list = new DataTransfer();
  for (const file of files) list.items.add(file);
  return list.files;
}

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

/** What waits to be sent, small. A picture the browser cannot draw is only named. */
function showWaiting(place, files) {
  for (const shown of place.querySelectorAll("img")) URL.revokeObjectURL(shown.src);
  place.replaceChildren();
  for (const file of files) {
    const picture = new Image();
    picture.src = URL.createObjectURL(file);
    picture.alt = file.name;
    picture.addEventListener("error", () => picture.replaceWith(file.name));
    place.append(picture);
  }
}

function gatherPictures(form) {
  const camera = form.querySelector("[data-camera]");
  const chosen = form.querySelector("[data-chosen]");
  const place = form.querySelector("[data-waiting]");
  let all = [];
  const take = () => {
    all = joined(all, [...chosen.files, ...camera.files]);
    chosen.files = asList(all);
    camera.value = "";
    showWaiting(place, all);
  };
  camera.addEventListener("change", take);
  chosen.addEventListener("change", take);
  // Chosen before this script was here, or kept by the browser on the way back.
  if (chosen.files.length || camera.files.length) take();
}

export function start(form) {
  watchDay(form);
  watchTicks(form);
  gatherPictures(form);
}
