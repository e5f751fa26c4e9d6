// Pictures before they are sent: what was taken one after the other joins what was chosen, each is shown and can be left out.

const MB = 1024 * 1024;
const MOST = 50; // files of one sending

/** What to say of one chosen file: nothing when it can go. */
export function remark(file, limitMb) {
  if (file.size > limitMb * MB) return `larger than ${limitMb} MB, it will not be kept`;
  if (file.size === 0) return "empty, it will not be kept";
  return "";
}

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

/** One picture that waits. What the browser cannot draw is only named. */
function waiting(file, limitMb, leave) {
  const item = document.createElement("li");
  const [words, name] = [remark(file, limitMb), document.createElement("span")];
  name.textContent = words ? `${file.name}: ${words}` : file.name;
  if (file.type.startsWith("image/") && file.type !== "image/svg+xml") {
    const picture = Object.assign(new Image(), { alt: file.name, src: URL.createObjectURL(file) });
    picture.addEventListener("load", () => URL.revokeObjectURL(picture.src));
    picture.addEventListener("error", () => picture.remove());
    item.append(picture);
  }
  const out = Object.assign(document.createElement("button"), { type: "button", className: "plain", textContent: "Leave it out" });
  out.setAttribute("aria-label", `Leave ${file.name} out`);
  out.addEventListener("click", leave);
  item.append(name, out);
  return item;
}

export function start(form) {
  const [camera, chosen, place, says] = ["camera", "chosen", "waiting", "many"].map((name) => form.querySelector(`[data-${name}]`));
  const limitMb = Number(form.dataset.limitMb);
  let all = [];
  const show = () => {
    chosen.files = asList(all);
    camera.value = "";
    place.replaceChildren(...all.map((file) => waiting(file, limitMb, () => leave(file))));
    if (says) says.textContent = all.length === 0 ? "" : all.length === 1 ? "1 picture is ready to go." : `${all.length} pictures are ready to go.`;
  };
  const leave = (file) => {
    all = all.filter((one) => one !== file);
    show();
    chosen.focus();
  };
  const take = () => {
    const wanted = joined(all, [...chosen.files, ...camera.files]);
    all = wanted.slice(0, MOST);
    show();
    if (says && wanted.length > MOST) says.textContent = `${MOST} go at once. Send these first, then the others.`;
  };
  camera.addEventListener("change", take);
  chosen.addEventListener("change", take);
  for (const button of document.querySelectorAll(`[data-camera-of="${form.id}"]`)) {
    button.hidden = false;
    camera.parentElement.hidden = true; // the button does the same, with more room
    button.addEventListener("click", () => camera.click());
  }
  // Chosen before this script was here, or kept by the browser on the way back.
  if (chosen.files.length || camera.files.length) take();
}
