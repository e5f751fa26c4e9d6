// A press of the picture sets a number there and gives it its own fields, without asking the server. Without this module
// the server does both.

const MILLION = 1_000_000;
const MOST = 40;
const SVG = "http://www.w3.org/2000/svg";

/** Where a press was, in millionths of the picture's width and height. */
export function spot(event, box) {
  const part = (at, from, size) => Math.min(MILLION, Math.max(0, Math.round(((at - from) / size) * MILLION)));
  return [part(event.clientX, box.left, box.width), part(event.clientY, box.top, box.height)];
}

function pin(drawing, [across, down], number) {
  const { width, height } = drawing.viewBox.baseVal;
  const group = document.createElementNS(SVG, "g");
  group.setAttribute("class", "num");
  group.setAttribute("transform", `translate(${(across * width) / MILLION} ${(down * height) / MILLION})`);
  const [path, circle, text] = ["path", "circle", "text"].map((name) => group.appendChild(document.createElementNS(SVG, name)));
  for (const [name, value] of [["class", "l2"], ["d", "M0 0v-10"]]) path.setAttribute(name, value);
  for (const [name, value] of [["class", "l2 f-paper"], ["cy", "-22"], ["r", "13"]]) circle.setAttribute(name, value);
  for (const [name, value] of [["class", "mid"], ["y", "-16.5"]]) text.setAttribute(name, value);
  text.textContent = number;
  drawing.querySelector("[data-pins]").append(group);
}

export function start(form) {
  const drawing = form.querySelector("svg");
  const rows = form.querySelector("[data-rows]");
  const blank = document.querySelector("template[data-row]");
  const add = (event) => {
    event.preventDefault();
    const count = Number(form.elements.rows.value) + 1;
    if (count > MOST) return;
    const at = spot(event, drawing.getBoundingClientRect());
    const number = Number(form.dataset.next) + count;
    const made = document.createElement("template");
    made.innerHTML = blank.innerHTML.replaceAll(/_0(?=["_ ])/g, `_${count}`);
    made.content.querySelector("[data-number]").textContent = number;
    made.content.querySelector(`[name=at_${count}]`).value = at.join(" ");
    rows.append(made.content);
    form.elements.rows.value = count;
    pin(drawing, at, number);
    rows.lastElementChild.querySelector(`[name=what_${count}]`).focus({ preventScroll: false });
  };
  for (const image of form.querySelectorAll("input[type=image]")) image.addEventListener("click", add);
}
