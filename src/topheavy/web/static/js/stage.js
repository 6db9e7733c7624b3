// @ts-check
import { linksAt, loadAt } from "./curve.js";
import { makeDraggable } from "./drag.js";
import { Motion } from "./motion.js";
import { Panel, valueText } from "./panel.js";
import { drawStill, svg } from "./shapes.js";
import { lengthText, massText } from "./units.js";
/**
 * The stage: the bar's end to scale, the curve beside it, the bar that is dragged.
 * @typedef {import("./curve.js").Corners} Corners
 * @typedef {import("./shapes.js").Encoded} Encoded
 * @typedef {import("./shapes.js").Look} Look
 * @typedef {{size: string, links: number, pieces: number, steps: [number, number][]}} Kind
 * @typedef {object} StageData what /api/rig/stage sends
 * @property {number} bottom_m
 * @property {number} top_m
 * @property {number} low_m
 * @property {number} high_m
 * @property {number} width_m
 * @property {number} sleeve_end_m
 * @property {number} surface_m
 * @property {number} straight_weight_kg
 * @property {Corners} raising
 * @property {Corners} lowering
 * @property {Corners} straight
 * @property {Corners} wanted
 * @property {Kind[]} kinds
 * @property {Encoded[]} still
 * @property {Encoded[]} pose
 * @property {Look[]} looks
 * @property {number} bar_m
 * @property {string} title
 * @property {string} description
 */

/** Drawing units a metre, as the server draws. */
const PER_M = 250;
const AXIS = 40;
const HEAD = 18;
const FOOT = 32;
const GAP = 16;
const EDGE = 10;
const GRAB = 64;
/** A lift that begins this high above what the chain lies on is clear of the heap [m]. */
const CLEAR_M = 0.45;
/** The number stands so far above the bar [m]. */
const TAG_OVER_M = 0.055;

/** @param {string} id */
const get = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

export class Stage {
  constructor() {
    this.box = get("stage");
    this.grab = get("grab");
    this.drawing = /** @type {SVGSVGElement} */ (/** @type {unknown} */ (get("drawing")));
    this.floor = svg("rect", { class: "floor" });
    this.panelGroup = svg("g");
    this.figure = svg("g");
    this.still = svg("g", { class: "still" });
    this.live = svg("g", { class: "live" });
    this.ghost = svg("g", { class: "ghost" });
    this.figure.append(this.still, this.live, this.ghost);
    this.drawing.append(this.panelGroup, this.floor, this.figure);
    /** @type {StageData | null} */
    this.data = null;
    /** @type {Motion | null} */
    this.motion = null;
    /** @type {Motion | null} */
    this.straight = null;
    this.height = NaN;
    this.scale = 1;
    this.floorY = 0;
    this.pending = false;
    makeDraggable(this.grab, this.box, {
      height: () => this.height,
      move: (height) => this.move(height),
      ends: () => [this.data?.bottom_m ?? 0, this.data?.top_m ?? 1],
      step: () => this.units?.step ?? 0.01,
      heightOf: (y) => this.heightOf(y),
    });
    new ResizeObserver(() => this.lay()).observe(this.box);
  }

  /** Put a rig on the stage; the bar stays where it is, as far as the lift lets it.
   * @param {StageData} data @param {import("./units.js").Units} units */
  set(data, units) {
    this.data = data;
    this.units = units;
    this.motion = null;
    this.straight = null;
    this.ghost.replaceChildren();
    drawStill(this.still, data.still, data.looks);
    drawStill(this.live, data.pose, data.looks);
    this.height = data.bar_m;
    get("drawing-name").textContent = data.title;
    get("drawing-words").textContent = data.description;
    this.grab.hidden = false;
    get("read").hidden = false;
    get("waiting").hidden = true;
    this.lay();
  }

  /** @param {import("./motion.js").MotionData} data */
  setMotion(data) {
    this.motion = new Motion(this.live, data);
    this.live.classList.remove("ahead");
    this.show();
  }

  /** Lay the straight-hung chain over it, or take it away.
   * @param {import("./motion.js").MotionData | null} data */
  setStraight(data) {
    this.straight = data ? new Motion(this.ghost, data) : null;
    if (!data) this.ghost.replaceChildren();
    this.show();
  }

  /** Work out where everything goes. */
  lay() {
    const { data, units } = this;
    if (!data || !units) return;
    const { clientWidth: width, clientHeight: height } = this.box;
    if (!width || !height) return; // on paper it is not shown
    this.drawing.setAttribute("viewBox", `0 0 ${width} ${height}`);
    const least = Math.min(0.42 * width, 320);
    // Slack lies low: where the lift is well above it, the curve stands over it, beside the sleeve.
    const over = data.bottom_m - data.surface_m > CLEAR_M;
    const beside = over ? data.sleeve_end_m : data.width_m;
    this.scale = Math.min(
      (height - HEAD - FOOT) / (data.high_m - data.low_m),
      (width - AXIS - GAP - EDGE - least) / beside,
      (width - AXIS - EDGE) / data.width_m,
    );
    this.floorY = height - FOOT;
    const sleeve = data.sleeve_end_m * this.scale;
    const y = (/** @type {number} */ h) => this.floorY - (h - data.low_m) * this.scale;
    this.figure.setAttribute("transform", `translate(${AXIS} ${y(0)}) scale(${this.scale / PER_M})`);
    for (const [name, value] of Object.entries({ x: AXIS, y: this.floorY, width: width - AXIS, height: 6 })) {
      this.floor.setAttribute(name, String(value));
    }
    this.panel = new Panel(this.panelGroup, data, units, {
      left: AXIS + beside * this.scale + GAP,
      right: width - EDGE,
      top: y(data.high_m),
      foot: over ? y(data.bottom_m) + 16 : this.floorY,
      axis: AXIS,
      y,
    });
    const tag = get("tag");
    this.grab.style.left = `${AXIS}px`;
    this.grab.style.width = `${sleeve}px`;
    tag.style.bottom = `${GRAB / 2 + TAG_OVER_M * this.scale}px`;
    this.grab.setAttribute("aria-valuemin", (data.bottom_m / units.m).toFixed(1));
    this.grab.setAttribute("aria-valuemax", (data.top_m / units.m).toFixed(1));
    this.show();
  }

  /** Height [m] of a place on the screen. @param {number} clientY */
  heightOf(clientY) {
    const top = this.box.getBoundingClientRect().top + this.box.clientTop;
    return (this.data?.low_m ?? 0) + (this.floorY - (clientY - top)) / this.scale;
  }

  /** Bring the bar to a height [m], inside the lift; drawn with the next frame.
   * @param {number} height */
  move(height) {
    if (!this.data) return;
    this.height = Math.min(Math.max(height, this.data.bottom_m), this.data.top_m);
    if (this.pending) return;
    this.pending = true;
    requestAnimationFrame(() => {
      this.pending = false;
      this.show();
    });
  }

  /** What the whole bar carries at both ends of the lift, in words. */
  ends() {
    const { data, units } = this;
    if (!data || !units) return "";
    const [bottom, top] = [data.bottom_m, data.top_m].map((h) => massText(units, loadAt(data.raising, h)));
    return `${bottom} at the bottom, ${top} at the top`;
  }

  /** Links off the floor, in words, a piece of each kind. */
  links() {
    const kinds = this.data?.kinds ?? [];
    return kinds.map((k) => `${linksAt(k.steps, this.height)} of ${k.links} links of ${k.size}`).join("; ");
  }

  /** Until all heights are drawn only the bar follows; links that may stand elsewhere are faint. */
  showAhead() {
    const { data } = this;
    if (!data) return;
    const down = (data.bar_m - this.height) * PER_M;
    this.live.classList.toggle("ahead", Math.abs(down) > 0.5);
    for (const one of this.live.querySelectorAll("[data-part='bar'], [data-part='grip']")) {
      one.setAttribute("transform", `translate(0 ${down})`);
    }
  }

  /** Draw everything as it is at this height. */
  show() {
    const { data, units, height } = this;
    if (!data || !units) return;
    if (this.motion) this.motion.show(height);
    else this.showAhead();
    this.straight?.show(height);
    this.panel?.show(height);
    const load = massText(units, loadAt(data.raising, height));
    const links = this.links();
    this.grab.style.transform = `translateY(${this.floorY - (height - data.low_m) * this.scale}px)`;
    get("tag").textContent = load;
    get("r-height").textContent = lengthText(units, height);
    get("r-raising").textContent = load;
    get("r-lowering").textContent = massText(units, loadAt(data.lowering, height));
    get("r-straight").textContent = data.straight.length ? massText(units, loadAt(data.straight, height)) : "as it is";
    get("r-links").textContent = links || "no chain";
    this.grab.setAttribute("aria-valuenow", (height / units.m).toFixed(1));
    this.grab.setAttribute("aria-valuetext", valueText(data, units, height, links));
  }
}
