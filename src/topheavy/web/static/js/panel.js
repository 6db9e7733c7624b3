// @ts-check
import { loadAt } from "./curve.js";
import { svg } from "./shapes.js";
import { lengthText, massText, niceStep } from "./units.js";
/**
 * The load curve beside the figure, on the same heights, and the height axis of both.
 * @typedef {import("./curve.js").Corners} Corners
 * @typedef {import("./units.js").Units} Units
 * @typedef {object} Frame
 * @property {number} left left edge of the curve [px]
 * @property {number} right right edge [px]
 * @property {number} top upper edge [px]
 * @property {number} foot where the load axis is [px]
 * @property {number} axis where the height axis is [px]
 * @property {(height: number) => number} y place of a height [m]
 */

/** A text. @param {string} words @param {number} x @param {number} y @param {string} look */
function text(words, x, y, look) {
  const element = svg("text", { x: x.toFixed(1), y: y.toFixed(1), class: look });
  element.textContent = words;
  return element;
}

/** Loads from the left edge to the right one [kg].
 * @param {import("./stage.js").StageData} data @returns {[number, number]} */
function loadSpan(data) {
  const loads = [...data.raising, ...data.lowering, ...data.straight, ...data.wanted].map((c) => c[1]);
  const low = Math.min(...loads);
  const high = Math.max(...loads);
  const span = Math.max(high - low, 0.1 * high, 1);
  return [Math.max(0, low - 0.22 * span), high + 0.1 * span];
}

export class Panel {
  /** @param {Element} group @param {import("./stage.js").StageData} data @param {Units} units @param {Frame} frame */
  constructor(group, data, units, frame) {
    this.data = data;
    this.units = units;
    this.frame = frame;
    const [from, to] = loadSpan(data);
    /** @param {number} load */
    this.x = (load) => frame.left + ((load - from) / (to - from)) * (frame.right - frame.left);
    this.level = svg("line", { class: "level" });
    this.dot = svg("circle", { r: 6, class: "dot" });
    this.mark = text("", frame.axis - 4, 0, "mark end");
    group.replaceChildren(
      ...this.axis(),
      ...this.loads(from, to),
      this.area(),
      this.path(data.straight, "curve straight"),
      this.path(data.lowering, "curve lowering"),
      this.path(data.raising, "curve raising"),
      ...this.wanted(),
      this.level,
      this.dot,
      this.mark,
    );
  }

  /** Show where the bar is. @param {number} height */
  show(height) {
    const { frame } = this;
    const y = frame.y(height);
    const x = this.x(loadAt(this.data.raising, height));
    const line = { x1: frame.axis, x2: x, y1: y, y2: y };
    for (const [name, value] of Object.entries(line)) this.level.setAttribute(name, value.toFixed(1));
    this.dot.setAttribute("cx", x.toFixed(1));
    this.dot.setAttribute("cy", y.toFixed(1));
    this.mark.setAttribute("y", (y + 4).toFixed(1));
    this.mark.textContent = (height / this.units.m).toFixed(1);
  }

  /** The height axis, bottom and top in bold. */
  axis() {
    const { frame, data, units } = this;
    const made = [svg("line", { x1: frame.axis, x2: frame.axis, y1: frame.y(data.low_m), y2: frame.top, class: "axis" })];
    const perUnit = (frame.y(0) - frame.y(1)) * units.m;
    const step = niceStep(30 / perUnit);
    const first = Math.ceil(data.low_m / units.m / step);
    for (let tick = first; frame.y(tick * step * units.m) > frame.top + 12; tick += 1) {
      const y = frame.y(tick * step * units.m);
      made.push(svg("line", { x1: frame.axis - 3, x2: frame.axis, y1: y, y2: y, class: "axis" }));
      made.push(text(`${+(tick * step).toFixed(6)}`, frame.axis - 5, y + 4, "tick end"));
    }
    made.push(text(units.length, frame.axis - 5, frame.top + 4, "tick end"));
    for (const height of [data.bottom_m, data.top_m]) {
      const y = frame.y(height);
      made.push(svg("line", { x1: frame.axis, x2: frame.right, y1: y, y2: y, class: "limit" }));
    }
    return made;
  }

  /** The load axis. @param {number} from @param {number} to */
  loads(from, to) {
    const { frame, units } = this;
    const step = niceStep(((to - from) / units.kg) * (48 / (frame.right - frame.left)));
    const made = [];
    for (let tick = Math.ceil(from / units.kg / step); tick * step * units.kg <= to; tick += 1) {
      const x = this.x(tick * step * units.kg);
      made.push(svg("line", { x1: x, x2: x, y1: frame.foot, y2: frame.top, class: "grid" }));
      made.push(text(`${+(tick * step).toFixed(6)}`, x, frame.foot + 16, "tick middle"));
    }
    made.push(text(`load, ${units.mass}`, frame.right, frame.top - 4, "tick end"));
    return made;
  }

  /** What hangs: between bar with plates and the curve. */
  area() {
    const { data, frame } = this;
    const plain = Math.max(this.x(data.straight_weight_kg), frame.left);
    const bottom = frame.y(data.bottom_m);
    const top = frame.y(data.top_m);
    const points = data.raising.map(([h, kg]) => `${this.x(kg).toFixed(1)},${frame.y(h).toFixed(1)}`);
    return svg("polygon", { points: `${plain},${bottom} ${points.join(" ")} ${plain},${top}`, class: "hung" });
  }

  /** @param {Corners} corners @param {string} look */
  path(corners, look) {
    const points = corners.map(([h, kg]) => `${this.x(kg).toFixed(1)},${this.frame.y(h).toFixed(1)}`);
    return svg("polyline", { points: points.join(" "), class: look });
  }

  /** What was asked for: open squares, a row of them where a curve was. */
  wanted() {
    const some = this.data.wanted.length > 12 ? this.data.wanted.filter((_, i) => i % 5 === 0) : this.data.wanted;
    return some.map(([h, kg]) =>
      svg("rect", { x: this.x(kg) - 4.5, y: this.frame.y(h) - 4.5, width: 9, height: 9, class: "wanted" }),
    );
  }
}

/** The slider's value in words.
 * @param {import("./stage.js").StageData} data @param {Units} units @param {number} height @param {string} links */
export function valueText(data, units, height, links) {
  const load = massText(units, loadAt(data.raising, height));
  return `${lengthText(units, height)} up, ${load} on the bar${links ? `, ${links} off the floor` : ""}`;
}
