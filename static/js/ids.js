// Ids and times made on the phone.

const MONTHS = "January February March April May June July August September October November December".split(" ");
const DAYS = "Sunday Monday Tuesday Wednesday Thursday Friday Saturday".split(" ");

/** An id nobody else makes. On a plain http address there is no randomUUID, but there are random values. */
export function freshId() {
  if (globalThis.crypto.randomUUID) return crypto.randomUUID();
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** "2026-05-16T17:40:03", as the clock on the wall says it. */
export function localTime(moment) {
  const two = (number) => String(number).padStart(2, "0");
  const day = [moment.getFullYear(), two(moment.getMonth() + 1), two(moment.getDate())].join("-");
  return `${day}T${[moment.getHours(), moment.getMinutes(), moment.getSeconds()].map(two).join(":")}`;
}

/** "Saturday 16 May". */
export const shownDay = (moment) => `${DAYS[moment.getDay()]} ${moment.getDate()} ${MONTHS[moment.getMonth()]}`;

/** "Saturday 16 May, 14:20". */
export const shownMoment = (moment) => `${shownDay(moment)}, ${localTime(moment).slice(11, 16)}`;
