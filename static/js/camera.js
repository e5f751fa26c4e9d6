// Shows what was chosen before it is sent, and says which file is too large while it can still be left out.

const MB = 1024 * 1024;

/** What to say of one chosen file: nothing when it can go. */
export function remark(file, limitMb) {
  if (file.size > limitMb * MB) return `larger than ${limitMb} MB, it will not be kept`;
  if (file.size === 0) return "empty, it will not be kept";
  return "";
}

function row(file, limitMb) {
  const item = document.createElement("li");
  const words = remark(file, limitMb);
  if (file.type.startsWith("image/") && file.type !== "image/svg+xml") {
    const picture = document.createElement("img");
    const address = URL.createObjectURL(file);
    picture.alt = "";
    picture.addEventListener("load", () => URL.revokeObjectURL(address));
    picture.addEventListener("error", () => picture.remove());
    picture.src = address;
    item.append(picture);
  }
  item.append(words ? `${file.name}: ${words}` : file.name);
  return item;
}

export function start(element) {
  const field = element.querySelector("input[type=file]");
  const limitMb = Number(element.dataset.limitMb);
  const list = document.createElement("ul");
  list.className = "chosen full";
  list.hidden = true;
  list.setAttribute("aria-live", "polite");
  field.after(list);
  const show = () => {
    list.replaceChildren(...Array.from(field.files, (file) => row(file, limitMb)));
    list.hidden = field.files.length === 0;
  };
  field.addEventListener("change", show);
  show();
}
