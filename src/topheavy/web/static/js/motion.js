// @ts-check
import { make, place } from "./shapes.js";
/**
 * The drawing at every height of the bar. A motion is a row of stretches; over a stretch the same
 * shapes move, each number along its own track of values, one for each height of the stretch.
 * @typedef {import("./shapes.js").Encoded} Encoded
 * @typedef {import("./shapes.js").Look} Look
 * @typedef {{heights_m: number[], shapes: Encoded[]}} Stretch
 * @typedef {{looks: Look[], stretches: Stretch[]}} MotionData
 * @typedef {{element: Element, kind: string, tracks: (number | number[])[], outline: string}} Moving
 */

export class Motion {
  /** @param {Element} group @param {MotionData} data */
  constructor(group, data) {
    this.group = group;
    this.data = data;
    this.stretch = -1;
    /** @type {Moving[]} */
    this.moving = [];
  }

  /** Show everything with the bar at a height [m]. @param {number} height */
  show(height) {
    const { stretches } = this.data;
    if (!stretches.length) return;
    let number = stretches.findLastIndex((one) => height >= one.heights_m[0]);
    if (number < 0) number = 0;
    if (number !== this.stretch) this.enter(number);
    const heights = stretches[number].heights_m;
    let i = 0;
    while (i < heights.length - 2 && height >= heights[i + 1]) i += 1;
    const share = Math.min(Math.max((height - heights[i]) / (heights[i + 1] - heights[i]), 0), 1);
    for (const one of this.moving) {
      const numbers = one.tracks.map((t) => (typeof t === "number" ? t : t[i] + share * (t[i + 1] - t[i])));
      place(one.element, one.kind, numbers, one.outline);
    }
  }

  /** Make the shapes of a stretch; those that stand still are put in place once.
   * @param {number} number */
  enter(number) {
    this.stretch = number;
    this.moving = [];
    const elements = this.data.stretches[number].shapes.map((shape) => {
      const element = make(shape, this.data.looks);
      const kind = /** @type {string} */ (shape[0]);
      const tracks = /** @type {(number | number[])[]} */ (shape.slice(2).filter((n) => typeof n !== "string"));
      const outline = String(shape.find((n, i) => i > 1 && typeof n === "string") ?? "");
      if (tracks.some((track) => typeof track !== "number")) this.moving.push({ element, kind, tracks, outline });
      else place(element, kind, /** @type {number[]} */ (tracks), outline);
      return element;
    });
    this.group.replaceChildren(...elements);
  }
}
