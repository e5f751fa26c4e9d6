// Half an hour less or more beside a field of hours, and usual hours at one tap. Reads 2.5, 2,5, 2½, 2 1/2 and 1:30, and writes back in the form it found.

const QUARTERS = { "¼": 0.25, "½": 0.5, "¾": 0.75 };
const MOST = 24 * 60;

/** Minutes of what is typed; null when it cannot be read, so that nothing typed is ever overwritten by a guess. */
export function readMinutes(text) {
  const plain = text.trim().replace(",", ".").replace(/\s*h$/i, "");
  if (plain === "") return 0;
  const clock = plain.match(/^(\d{1,2}):([0-5]\d)$/);
  if (clock) return Number(clock[1]) * 60 + Number(clock[2]);
  const quarters = plain.match(/^(\d*)\s*([¼½¾])$/);
  if (quarters) return Math.round((Number(quarters[1]) + QUARTERS[quarters[2]]) * 60);
  const mixed = plain.match(/^(?:(\d+)[ -])?(\d)\/([248])$/);
  if (mixed) return Math.round((Number(mixed[1] ?? 0) + mixed[2] / mixed[3]) * 60);
  return /^(\d+\.?\d*|\.\d+)$/.test(plain) ? Math.round(Number(plain) * 60) : null;
}

/** Hours in the way of `like`: with a colon when it has one, else as a decimal number. */
export function writeHours(minutes, like) {
  if (like.includes(":")) return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
  return String(minutes / 60).replace(".", like.includes(",") ? "," : ".");
}

/** The next full half hour in the direction of `step`, from nothing to a day. */
export function next(minutes, step) {
  const size = Math.abs(step);
  const steps = step > 0 ? Math.floor(minutes / size) + 1 : Math.ceil(minutes / size) - 1;
  return Math.min(MOST, Math.max(0, steps * size));
}

export function start(element) {
  const field = element.querySelector("input");
  const put = (value) => {
    field.value = value;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };
  for (const button of element.querySelectorAll("[data-set]")) {
    button.hidden = false;
    button.addEventListener("click", () => put(button.dataset.set));
  }
  for (const button of element.querySelectorAll("[data-step]")) {
    button.hidden = false;
    button.addEventListener("click", () => {
      const minutes = readMinutes(field.value);
      if (minutes === null) {
        field.select();
        return;
      }
      put(writeHours(next(minutes, Number(button.dataset.step)), field.value));
    });
  }
}
