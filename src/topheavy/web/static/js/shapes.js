// @ts-check
/**
 * Shapes of the drawing: what was drawn once is set in place again for each height of the bar.
 * @typedef {[part: string, fill: string, stroke: string, chain: string]} Look
 * @typedef {(string | number | number[])[]} Encoded kind, number of the look, then its numbers
 */

const SVG = "http://www.w3.org/2000/svg";
/** @type {Record<string, string>} */
const TAGS = { box: "rect", line: "line", trace: "polyline", disc: "circle", link: "path", path: "path" };

/** @param {string} tag @param {Record<string, string | number>} [attributes] */
export function svg(tag, attributes = {}) {
  const element = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  return element;
}

/** @param {Encoded} shape @param {Look[]} looks */
export function make(shape, looks) {
  const element = svg(TAGS[/** @type {string} */ (shape[0])]);
  const [part, fill, stroke, chain] = looks[/** @type {number} */ (shape[1])];
  element.setAttribute("class", `f-${fill} s-${stroke}${chain ? " link" : ""}`);
  if (part) element.setAttribute("data-part", part);
  if (chain) element.setAttribute("data-chain", chain);
  return element;
}

/** One round end to the other, as a path around both.
 * @param {number} ax @param {number} ay @param {number} bx @param {number} by @param {number} r */
function stadium(ax, ay, bx, by, r) {
  const long = Math.hypot(bx - ax, by - ay);
  const nx = long ? (r * (ay - by)) / long : 0;
  const ny = long ? (r * (bx - ax)) / long : r;
  const first = `${(ax + nx).toFixed(2)} ${(ay + ny).toFixed(2)}`;
  const arc = `A${r.toFixed(2)} ${r.toFixed(2)} 0 0 0 `;
  return (
    `M${first}L${(bx + nx).toFixed(2)} ${(by + ny).toFixed(2)}${arc}` +
    `${(bx - nx).toFixed(2)} ${(by - ny).toFixed(2)}L${(ax - nx).toFixed(2)} ${(ay - ny).toFixed(2)}${arc}${first}Z`
  );
}

/** Put a shape where its numbers say.
 * @param {Element} element @param {string} kind @param {number[]} n @param {string} outline */
export function place(element, kind, n, outline) {
  /** @param {Record<string, number | string>} values */
  const set = (values) => {
    for (const [name, value] of Object.entries(values)) element.setAttribute(name, String(value));
  };
  const stroke = kind === "path" || kind === "trace" ? n[0] : n[n.length - 1];
  set({ "stroke-width": stroke });
  if (kind === "box") set({ x: n[0], y: n[1], width: n[2], height: n[3], rx: n[4] });
  else if (kind === "line") set({ x1: n[0], y1: n[1], x2: n[2], y2: n[3] });
  else if (kind === "disc") set({ cx: n[0], cy: n[1], r: n[2] });
  else if (kind === "trace") set({ points: n.slice(1).join(" ") });
  else if (kind === "path") set({ d: outline });
  else {
    const hole = n[5] > 0 ? stadium(n[0], n[1], n[2], n[3], n[5]) : "";
    set({ d: stadium(n[0], n[1], n[2], n[3], n[4]) + hole });
  }
}

/** Draw shapes that do not move.
 * @param {Element} into @param {Encoded[]} shapes @param {Look[]} looks */
export function drawStill(into, shapes, looks) {
  into.replaceChildren(
    ...shapes.map((shape) => {
      const element = make(shape, looks);
      const numbers = /** @type {number[]} */ (shape.slice(2).filter((n) => typeof n === "number"));
      const outline = shape.find((n, i) => i > 1 && typeof n === "string");
      place(element, /** @type {string} */ (shape[0]), numbers, String(outline ?? ""));
      return element;
    }),
  );
}
