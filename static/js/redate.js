// A sheet kept on this phone days ago offers the day it was kept as today. What is recorded now happened now.

import { localTime, shownDay } from "./ids.js";

const words = (iso) => shownDay(new Date(`${iso}T12:00`));

/** The list of days: today and yesterday as they are now, then those it offered before. */
function redateList(list, now) {
  const before = new Date(`${now}T12:00`);
  before.setDate(before.getDate() - 1);
  const yesterday = localTime(before).slice(0, 10);
  const days = [[now, `Today, ${words(now)}`], [yesterday, `Yesterday, ${words(yesterday)}`]];
  const others = [...list.options].filter((one) => !days.some(([value]) => value === one.value));
  for (const one of others) if (/^\d{4}-/.test(one.value)) one.textContent = words(one.value);
  list.replaceChildren(...days.map(([value, text]) => new Option(text, value, value === now, value === now)), ...others);
  list.value = now;
}

/** Moves every day of the forms on this page that still says the day it was kept. */
export function redate() {
  const then = document.documentElement.dataset.day;
  const now = localTime(new Date()).slice(0, 10);
  if (!then || now <= then) return;
  for (const list of document.querySelectorAll("form[method=post] select")) {
    if ([...list.options].some((one) => one.value === then) && list.value === then) redateList(list, now);
  }
  for (const field of document.querySelectorAll(`form[method=post] input[value="${then}"]`)) {
    if (field.value === field.defaultValue) field.value = now;
  }
}
