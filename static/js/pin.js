// A tap on the drawing of a surface writes where it was into the two fields beneath; what is typed there counts.

const INCH = 25_400_000;
const MM = 1_000_000;

/** A length as the server reads it: to half an inch, or to a centimetre. */
export function written(nm, unit) {
  if (unit === "ft-in" || unit === "in") return `${Math.round((2 * nm) / INCH) / 2} in`;
  return `${Math.round(nm / (10 * MM)) * 10} mm`;
}

/** Offsets of a place in drawing units, by the numbers the drawing brings along. */
export function offsets(scale, x, y) {
  const [left, zero, along, across, way] = scale.split(" ").map(Number);
  return [(x - left) / along, (way * (y - zero)) / across];
}

export function start(form) {
  const drawing = form.querySelector("svg[data-scale]");
  const mark = drawing.querySelector("[data-mark]");
  const { unit } = form.dataset;
  const fields = [form.elements.x, form.elements.y];
  form.querySelector("[data-tap]").hidden = false;
  drawing.addEventListener("click", (event) => {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
    offsets(drawing.dataset.scale, at.x, at.y).forEach((nm, which) => {
      fields[which].value = written(Math.max(0, nm), unit);
    });
    mark.setAttribute("transform", `translate(${at.x} ${at.y})`);
    mark.removeAttribute("hidden");
    for (const old of drawing.querySelectorAll("g.pin:not([data-mark])")) old.remove();
  });
}
