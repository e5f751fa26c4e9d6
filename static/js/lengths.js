// Lengths as the server reads and shows them (webapp/values/length.py), for offsets on a tape's marks: eighths of an inch
// or 5 mm. What is typed otherwise is left to the server; here it only has no mark.

const INCH = 25_400_000;
const MM = 1_000_000;
const METRIC = { mm: MM, cm: 10 * MM, m: 1000 * MM };
const EIGHTHS = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];
const TYPED = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];

const inches = (unit) => !(unit in METRIC);

/** The mark of the tape a finger is set to, and how far an arrow key goes. */
export const step = (unit) => (inches(unit) ? INCH / 8 : 5 * MM);
export const nudge = (unit) => (inches(unit) ? INCH / 4 : 5 * MM);
export const snap = (nm, size) => Math.round(nm / size) * size;

function mixed(nm, parts, join) {
  const eighths = Math.round(nm / (INCH / 8));
  const [whole, part] = [Math.floor(eighths / 8), parts[eighths % 8]];
  return whole && part ? `${whole}${join}${part}` : part || String(whole);
}

/** For a field: 6' 2-1/8", or a bare number in the unit. */
export function field(nm, unit) {
  if (!inches(unit)) return String(Number((nm / METRIC[unit]).toFixed(6)));
  if (unit === "in") return mixed(nm, TYPED, "-");
  const feet = Math.floor(nm / (12 * INCH) + 1e-9);
  return `${feet ? `${feet}' ` : ""}${mixed(nm - feet * 12 * INCH, TYPED, "-")}"`;
}

/** For reading: 6′ 2⅛″, 74⅛ in, 1890 mm. */
export function words(nm, unit) {
  if (!inches(unit)) return `${field(nm, unit)} ${unit}`;
  if (unit === "in") return `${mixed(nm, EIGHTHS, "")} in`;
  const feet = Math.floor(nm / (12 * INCH) + 1e-9);
  return `${feet ? `${feet}′ ` : ""}${mixed(nm - feet * 12 * INCH, EIGHTHS, "")}″`;
}

/** Nanometres of what `field` wrote or of a plain number; null for anything else, which the server reads or refuses. */
export function read(text, unit) {
  const plain = text.trim();
  if (!inches(unit)) return /^\d+(\.\d+)?$/.test(plain) ? Number(plain) * METRIC[unit] : null;
  const found = plain.match(/^(?:(\d+)'\s*)?(\d+(?:\.\d+)?)?(?:(?:^|[\s-])(\d+)\/(\d+))?\s*(?:"|in)?$/);
  if (!found || plain === "" || Number(found[4]) === 0) return null;
  const [feet, whole, over, under] = found.slice(1).map((part) => Number(part ?? 0));
  return (feet * 12 + whole + (under ? over / under : 0)) * INCH;
}
