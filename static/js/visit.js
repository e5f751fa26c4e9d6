// The form of a visit: a tap on "Same for all" is seen on every surface at once, and rows for what was said come without
// asking the server. Without this the server does both.

const MOST = 40;
const ZERO = /_0(?=["_ ])/g;

function sameForAll(form) {
  const own = new Set();
  const fields = () => [...form.querySelectorAll('.surf:not(.all) input[type="radio"][name^="kind_"]')];
  const open = (field) => !field.closest("details:not([open])");
  for (const field of fields()) {
    if (field.checked) own.add(field.name);
    field.addEventListener("change", () => own.add(field.name));
  }
  for (const all of form.querySelectorAll('[name="kind_all"]')) {
    all.addEventListener("change", () => {
      for (const field of fields().filter((one) => open(one) && !own.has(one.name))) {
        field.checked = field.value === all.value;
      }
    });
  }
}

function moreRows(form) {
  const rows = form.querySelector("[data-rows]");
  const blank = form.querySelector("[data-row]");
  form.querySelector("[data-add]").addEventListener("click", (event) => {
    event.preventDefault();
    const number = rows.children.length + 1;
    const made = document.createElement("template");
    made.innerHTML = blank.innerHTML.replaceAll(ZERO, `_${number}`);
    rows.append(made.content);
    form.elements.rows.value = number;
    rows.lastElementChild.querySelector("textarea").focus();
    event.currentTarget.hidden = number >= MOST;
  });
}

export function start(form) {
  sameForAll(form);
  moreRows(form);
}
