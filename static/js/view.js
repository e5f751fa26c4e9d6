// Which part of a surface is shown, and where on it a finger is. The drawing is there twice: at a glance for a narrow
// screen, and measured. Seen from afar the first one stands, from near the second, so that lettering can always be read.

const NEAREST = 4; // times as large as the measured sheet is drawn
const SHEET_FROM = 0.8; // from this size on its lettering can be read
const NARROW = matchMedia("(max-width: 63.99em)");

function sheetOf(svg) {
  const [left, zero, along, across, way] = svg.dataset.scale.split(" ").map(Number);
  const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
  return { svg, left, zero, along, across, way, width, height };
}

export class View {
  /** `pane` holds both drawings: [at a glance, measured]. `size` is pixels for a nanometre, (x, y) what is in the middle. */
  constructor(pane, drawings) {
    this.pane = pane;
    [this.glance, this.sheet] = drawings.map(sheetOf);
    this.listeners = new Set();
    this.whole();
  }

  get first() {
    return NARROW.matches ? this.glance : this.sheet;
  }

  get least() {
    const { width, height, along } = this.first;
    return Math.min(this.pane.clientWidth / width, this.pane.clientHeight / height) * along;
  }

  get shown() {
    return NARROW.matches && this.size < SHEET_FROM * this.sheet.along ? this.glance : this.sheet;
  }

  get isWhole() {
    return this.size <= this.least * 1.001;
  }

  whole() {
    const { width, height } = this.first;
    this.size = this.least;
    [this.x, this.y] = this.offsets(this.first, width / 2, height / 2);
    this.draw();
  }

  offsets(sheet, right, down) {
    return [(right - sheet.left) / sheet.along, (sheet.way * (down - sheet.zero)) / sheet.across];
  }

  place(sheet, x, y) {
    return [sheet.left + x * sheet.along, sheet.zero + sheet.way * y * sheet.across];
  }

  /** Offsets, from the corner that is left in the drawing, of a place on the screen. */
  at(clientX, clientY) {
    const pane = this.pane.getBoundingClientRect();
    const [left, top, width] = this.box;
    const unit = width / pane.width;
    return this.offsets(this.shown, left + (clientX - pane.left) * unit, top + (clientY - pane.top) * unit);
  }

  /** Nearer or further away, so that what is under this place of the screen stays there. */
  zoom(times, clientX, clientY) {
    const { left, top, width, height } = this.pane.getBoundingClientRect();
    const [right, down] = [clientX ?? left + width / 2, clientY ?? top + height / 2];
    this.hold(this.at(right, down), this.size * times, right, down);
  }

  /** So large, with these offsets at this place of the screen. */
  hold([x, y], size, clientX, clientY) {
    const { left, top, width, height } = this.pane.getBoundingClientRect();
    this.size = Math.min(Math.max(size, this.least), NEAREST * this.sheet.along);
    if (this.isWhole) return this.whole();
    const [unit, [cx, cy]] = [this.shown.along / this.size, this.place(this.shown, x, y)];
    this.centre(this.shown, cx - (clientX - left - width / 2) * unit, cy - (clientY - top - height / 2) * unit);
  }

  /** By so many pixels. */
  pan(right, down) {
    const [unit, [cx, cy]] = [this.shown.along / this.size, this.place(this.shown, this.x, this.y)];
    this.centre(this.shown, cx - right * unit, cy - down * unit);
  }

  /** Brings offsets into sight. */
  reveal(x, y) {
    const [right, down] = this.place(this.shown, x, y);
    const [left, top, width, height] = this.box;
    const off = Math.max(left - right, right - left - width, top - down, down - top - height);
    if (off > -20) this.centre(this.shown, right, down);
  }

  /** The pane above what stands at the foot of the screen; on a wide screen its lower edge, where the floor is. */
  show() {
    this.pane.scrollIntoView({ block: NARROW.matches ? "start" : "end" });
  }

  centre(sheet, right, down) {
    const [width, height] = this.extent(sheet);
    const within = (middle, part, all) => (part >= all ? all / 2 : Math.min(Math.max(middle, part / 2), all - part / 2));
    [this.x, this.y] = this.offsets(sheet, within(right, width, sheet.width), within(down, height, sheet.height));
    this.draw();
  }

  extent(sheet) {
    const unit = sheet.along / this.size;
    return [this.pane.clientWidth * unit, this.pane.clientHeight * unit];
  }

  draw() {
    const sheet = this.shown;
    const [width, height] = this.extent(sheet);
    const [cx, cy] = this.place(sheet, this.x, this.y);
    this.box = [cx - width / 2, cy - height / 2, width, height];
    sheet.svg.setAttribute("viewBox", this.box.map((part) => part.toFixed(2)).join(" "));
    for (const one of [this.glance, this.sheet]) one.svg.toggleAttribute("hidden", one !== sheet);
    this.pane.classList.toggle("whole", this.isWhole);
    for (const listener of this.listeners) listener();
  }
}
