// @ts-check
import { bandRows, bandWords } from "./bands.js";
import { el, select } from "./elements.js";
/**
 * Changing the rig by hand: feeder, setting, connector, pieces, plates and bands, alike on both ends.
 * @typedef {import("./choices.js").Choices} Choices
 * @typedef {import("./bands.js").BandPart} BandPart
 * @typedef {{left: string[], right: string[], hang: string, feeder: string, setting: string, connector: string, plates_kg: number[], left_bands: BandPart[], right_bands: BandPart[]}} Parts
 */

export class PartsForm {
  /** @param {HTMLElement} form @param {Choices} choices @param {() => string[]} pegs the station's
   * @param {(parts: Parts) => void} changed */
  constructor(form, choices, pegs, changed) {
    this.form = form;
    this.pegs = pegs;
    this.choices = choices;
    this.changed = changed;
    /** @type {Parts | null} */
    this.parts = null;
    /** @type {Parts | null} */
    this.found = null;
    this.now = el("p", { class: "now", role: "status" });
    form.addEventListener("submit", (event) => event.preventDefault());
  }

  /** Begin from a rig. @param {Parts} parts @param {boolean} found whether it was searched */
  set(parts, found) {
    this.parts = parts;
    if (found) this.found = parts;
    this.form.hidden = false;
    this.render();
  }

  /** Take over a change, draw the form anew and tell. @param {Partial<Parts>} change */
  change(change) {
    if (!this.parts) return;
    this.parts = { ...this.parts, ...change };
    const focused = document.activeElement?.getAttribute("data-key");
    this.render();
    if (focused) this.focus(focused);
    this.changed(this.parts);
  }

  /** Bring the focus back to where it was, or beside it when that can't go further.
   * @param {string} key */
  focus(key) {
    const one = /** @type {HTMLButtonElement | null} */ (this.form.querySelector(`[data-key="${CSS.escape(key)}"]`));
    const to = one?.disabled ? one.parentElement?.querySelector("button:not(:disabled)") : one;
    /** @type {HTMLElement | null | undefined} */ (to)?.focus({ preventScroll: true });
  }

  /** Whether parts are those of the rig that was searched. @param {Parts | null} parts */
  isFound(parts) {
    return JSON.stringify(parts) === JSON.stringify(this.found);
  }

  /** Say what the rig carries now, where the changes are made. @param {string} words */
  tell(words) {
    this.now.textContent = words;
  }

  render() {
    const back = el("button", { type: "button", class: "button", "data-key": "back" }, "Back to the found rig");
    back.addEventListener("click", () => this.found && this.change(this.found));
    /** @type {HTMLButtonElement} */ (back).disabled = this.isFound(this.parts);
    this.form.replaceChildren(
      el("h2", {}, "Change the rig"),
      this.now,
      el("div", { class: "groups" }, ...this.held(), this.chain(), this.plates(), ...this.bands()),
      el("p", { class: "back" }, back, el("span", { class: "hint" }, " Both ends stay alike.")),
    );
  }

  /** Feeder, its setting, and the connector. */
  held() {
    const parts = /** @type {Parts} */ (this.parts);
    if (parts.hang !== "doubled") return [];
    const feeder = this.choices.feeders.find((one) => one.feeder === parts.feeder) ?? this.choices.feeders[0];
    const settings = feeder?.settings ?? [];
    const at = settings.findIndex((one) => one.label === parts.setting);
    const feeders = select("feeder", "Feeder", this.choices.feeders.map((one) => one.feeder), parts.feeder, (name) => {
      const other = this.choices.feeders.find((one) => one.feeder === name)?.settings ?? [];
      const near = Math.min(Math.max(Math.round((at / Math.max(settings.length - 1, 1)) * (other.length - 1)), 0), other.length - 1);
      this.change({ feeder: name, setting: other[near]?.label ?? "" });
    });
    const setting = this.stepper("setting", "Setting", settings[at]?.said ?? parts.setting, at, settings.length - 1, (to) =>
      this.change({ setting: settings[to].label }),
    );
    const connectors = select("connector", "Connector", this.choices.connectors, parts.connector, (name) =>
      this.change({ connector: name }),
    );
    return [el("fieldset", { class: "group" }, el("legend", {}, "Feeders, both alike"), feeders, setting, connectors)];
  }

  /** Pieces of each kind on each end. */
  chain() {
    const parts = /** @type {Parts} */ (this.parts);
    const rows = this.choices.kinds.map((kind) => {
      const left = parts.left.filter((tag) => kind.tags.includes(tag));
      const name = `${kind.size}, ${kind.links} links`;
      return this.stepper(`kind ${name}`, name, String(left.length), left.length, Math.floor(kind.tags.length / 2), (to) =>
        this.change(this.withPieces(kind.tags, to)),
      );
    });
    return el("fieldset", { class: "group" }, el("legend", {}, "Pieces on each end"), ...rows);
  }

  /** So many pieces of a kind on each end: those that hang stay, others come in the order of the stock.
   * @param {string[]} tags @param {number} count */
  withPieces(tags, count) {
    const parts = /** @type {Parts} */ (this.parts);
    const free = tags.filter((tag) => !parts.left.includes(tag) && !parts.right.includes(tag));
    const [left, right] = [parts.left, parts.right].map((end) => {
      const own = end.filter((tag) => tags.includes(tag)).slice(0, count);
      while (own.length < count) own.push(/** @type {string} */ (free.shift()));
      return [...end.filter((tag) => !tags.includes(tag)), ...own];
    });
    return { left, right };
  }

  /** Plates of each size on each side. */
  plates() {
    const parts = /** @type {Parts} */ (this.parts);
    const rows = this.choices.plates.map((plate) => {
      const same = (/** @type {number} */ kg) => Math.abs(kg - plate.mass_kg) < 1e-6;
      const count = parts.plates_kg.filter(same).length;
      return this.stepper(`plate ${plate.mark}`, plate.mark, String(count), count, plate.most, (to) =>
        this.change({
          plates_kg: [...parts.plates_kg.filter((kg) => !same(kg)), ...Array(to).fill(plate.mass_kg)].sort((a, b) => b - a),
        }),
      );
    });
    return el("fieldset", { class: "group plates" }, el("legend", {}, "Plates a side"), ...rows);
  }

  /** One less, what it is, one more.
   * @param {string} key @param {string} name @param {string} value @param {number} at @param {number} most
   * @param {(to: number) => void} go */
  stepper(key, name, value, at, most, go) {
    const make = (/** @type {number} */ by, /** @type {string} */ sign, /** @type {string} */ says) => {
      const button = /** @type {HTMLButtonElement} */ (
        el("button", { type: "button", class: "step", "aria-label": `${name}: ${says}`, "data-key": `${key} ${says}` }, sign)
      );
      button.disabled = at + by < 0 || at + by > most;
      button.addEventListener("click", () => go(at + by));
      return button;
    };
    return el(
      "div",
      { class: "stepper", role: "group", "aria-label": name },
      el("span", { class: "name" }, name),
      make(-1, "\u2212", "one less"),
      el("output", { "data-value": key }, value),
      make(1, "+", "one more"),
    );
  }

  /** Bands over the sleeves, where there are any and pegs for them. */
  bands() {
    const parts = /** @type {Parts} */ (this.parts);
    const rows = bandRows(parts, this.choices.bands, this.pegs(), (change) => this.change(change));
    return rows.length ? [el("fieldset", { class: "group bands" }, el("legend", {}, "Bands, one on each end"), ...rows)] : [];
  }
}

/** Parts as the server takes them. @param {URLSearchParams} query @param {Parts} parts */
export function withParts(query, parts) {
  const all = new URLSearchParams(query);
  for (const tag of parts.left) all.append("left", tag);
  for (const tag of parts.right) all.append("right", tag);
  for (const kg of parts.plates_kg) all.append("plate", `${kg}`);
  for (const name of /** @type {const} */ (["hang", "feeder", "setting", "connector"])) {
    if (parts[name]) all.set(name, parts[name]);
  }
  for (const band of parts.left_bands) all.append("left_band", bandWords(band));
  for (const band of parts.right_bands) all.append("right_band", bandWords(band));
  return all;
}
