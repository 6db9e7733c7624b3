// @ts-check
/**
 * The question: who, what, where, and the loads. What was measured is not typed again.
 * @typedef {{station: string, heights: string, pegs: string[]}} PlaceChoice
 * @typedef {{lift: string, best: string, stations: PlaceChoice[]}} LiftChoice
 * @typedef {{lifter: string, lifts: LiftChoice[]}} LifterChoice
 * @typedef {{feeder: string, settings: {label: string, said: string}[]}} FeederChoice
 * @typedef {{size: string, links: number, tags: string[]}} KindChoice
 * @typedef {{mass_kg: number, mark: string, most: number}} PlateChoice
 * @typedef {{tag: string, like: string}} BandChoice
 * @typedef {{lifters: LifterChoice[], feeders: FeederChoice[], connectors: string[], kinds: KindChoice[], plates: PlateChoice[], bands: BandChoice[]}} Choices
 */

/** @param {HTMLSelectElement} select @param {string[]} names */
function fill(select, names) {
  const before = select.value;
  select.replaceChildren(...names.map((name) => new Option(name, name)));
  if (names.includes(before)) select.value = before;
}

export class Question {
  /** @param {HTMLFormElement} form @param {Choices} choices */
  constructor(form, choices) {
    this.form = form;
    this.choices = choices;
    this.lifter = /** @type {HTMLSelectElement} */ (form.elements.namedItem("lifter"));
    this.lift = /** @type {HTMLSelectElement} */ (form.elements.namedItem("lift"));
    this.station = /** @type {HTMLSelectElement} */ (form.elements.namedItem("station"));
    this.follow();
  }

  /** Offer the lifts of this lifter and the stations of this lift, and say what is known. */
  follow() {
    const lifts = this.choices.lifters.find((one) => one.lifter === this.lifter.value)?.lifts ?? [];
    fill(this.lift, lifts.map((one) => one.lift));
    const lift = lifts.find((one) => one.lift === this.lift.value);
    fill(this.station, (lift?.stations ?? []).map((one) => one.station));
    const place = lift?.stations.find((one) => one.station === this.station.value);
    const bands = document.getElementById("bands-field");
    if (bands) bands.hidden = !this.bandsHere(place);
    const known = document.getElementById("known");
    const best = lift?.best ? `best ${lift.best}` : "no best known";
    if (known && place) known.textContent = `Bar ${place.heights}, ${best}.`;
  }

  /** Whether there are two bands, and pegs for them. @param {PlaceChoice} [place] */
  bandsHere(place) {
    return Boolean(this.choices.bands.length && place?.pegs.length);
  }

  /** Names of the pegs where the lifter lifts. */
  pegs() {
    const lifts = this.choices.lifters.find((one) => one.lifter === this.lifter.value)?.lifts ?? [];
    const places = lifts.find((one) => one.lift === this.lift.value)?.stations ?? [];
    return places.find((one) => one.station === this.station.value)?.pegs ?? [];
  }

  /** @param {string} name */
  value(name) {
    return String(new FormData(this.form).get(name) ?? "").trim();
  }

  /** Whether there is enough to ask. */
  complete() {
    return this.value("way") === "match" || Boolean(this.value("bottom") && this.value("top"));
  }

  /** The question as the server takes it. */
  query() {
    const query = new URLSearchParams();
    const match = this.value("way") === "match";
    for (const name of ["lifter", "lift", "station", "way", "units", ...(match ? ["effort"] : ["bottom", "top"])]) {
      const value = this.value(name);
      if (value) query.set(name, value);
    }
    const bands = this.value("bands");
    if (bands > "0" && this.choices.bands.length && this.pegs().length) query.set("bands", bands);
    return query;
  }

  /** Mark the field that a mistake is about; none to take the marks away. @param {string} [name] */
  mark(name) {
    for (const field of this.form.querySelectorAll("input, select")) {
      if (field.getAttribute("name") === name) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
  }
}
