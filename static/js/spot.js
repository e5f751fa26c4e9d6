// A ring where something is, or is to be, with the two lines along which it is measured: from the corner and from the floor.

const SVG = "http://www.w3.org/2000/svg";

export class Spot {
  constructor(view, pen = "") {
    this.view = view;
    this.marks = [view.glance, view.sheet].map((sheet) => {
      const group = document.createElementNS(SVG, "g");
      group.setAttribute("class", `spot ${pen}`);
      group.setAttribute("aria-hidden", "true");
      group.append(...["l1 hid", "ring", "ring dot"].map((classes) => {
        const path = document.createElementNS(SVG, "path");
        path.setAttribute("class", classes);
        return path;
      }));
      sheet.svg.append(group);
      return { sheet, group };
    });
    this.hide();
  }

  /** `x` from the corner that is left in the drawing; the line along is drawn to the surface's own corner, at `zero`. */
  put(x, y, zero = 0) {
    this.at = [x, y];
    for (const { sheet, group } of this.marks) {
      const [right, down] = this.view.place(sheet, x, y).map((part) => part.toFixed(2));
      const [edge] = this.view.place(sheet, zero, 0);
      const [lines, ring, dot] = group.children;
      lines.setAttribute("d", `M${edge.toFixed(2)} ${down}H${right}V${sheet.zero}`);
      ring.setAttribute("d", `M${right - 13} ${down}a13 13 0 1 0 26 0a13 13 0 1 0 -26 0z`);
      dot.setAttribute("d", `M${right - 2} ${down}a2 2 0 1 0 4 0a2 2 0 1 0 -4 0z`);
      group.removeAttribute("hidden");
    }
  }

  hide() {
    this.at = null;
    for (const { group } of this.marks) group.setAttribute("hidden", "");
  }
}
