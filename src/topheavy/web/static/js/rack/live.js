// @ts-check
/** Which set is shown: after those that the server has, and those that still wait here. */

/**
 * @typedef {object} Data
 * @property {string} work
 * @property {string} session
 * @property {{number: number, state: number, reps: number, rest_s: number}[]} steps
 * @property {string[][][]} changes
 * @property {{lifter: string, changes: string[][]}|null} left
 * @property {{id: string, number: number|null}[]} done
 * @property {boolean} advised
 *
 * @typedef {{id: string, number: number|null, words?: string}} Done
 */

export class Live {
  constructor() {
    /** @type {Data|undefined} */
    this.data = undefined;
    /** @type {Done[]} */
    this.done = [];
    /** @type {number|null} a set that was turned to by hand */
    this.turned = null;
    this.read();
  }

  /** Read what the server put into the page. */
  read() {
    const now = document.getElementById("now");
    this.data = now ? JSON.parse(now.dataset.rack ?? "{}") : undefined;
  }

  /** Lay what waits over what the server knows, and show the next set.
   * @param {import("./queue.js").Waiting[]} waiting */
  show(waiting) {
    const data = this.data;
    if (!data) return;
    const own = waiting.filter((one) => one.session === data.session && !one.refused);
    const known = new Set(data.done.map((one) => one.id));
    /** @type {Done[]} */
    let done = [...data.done];
    for (const one of own) {
      const set = one.set;
      if (set.struck) done = done.filter((other) => other.id !== set.corrects);
      else if (!known.has(String(set.id))) {
        done.push({ id: String(set.id), number: Number(set.number), words: one.words });
      }
    }
    this.done = done;
    this.list(own.length > 0);
    this.turnTo(own.length > 0);
  }

  /** @param {boolean} pending whether anything waits that the server does not know */
  turnTo(pending) {
    const data = /** @type {Data} */ (this.data);
    const sections = /** @type {HTMLElement[]} */ ([...document.querySelectorAll(".set[data-number]")]);
    const last = this.done.at(-1)?.number ?? 0;
    const advised = !pending && this.turned === null ? sections.find((one) => one.dataset.planned) : undefined;
    const stops = data.advised && !advised && !pending && this.turned === null;
    const number = this.turned ?? last + 1;
    const planned = stops ? undefined : sections.find((one) => !one.dataset.planned && Number(one.dataset.number) === number);
    const shown = advised ?? planned;
    for (const one of sections) one.hidden = one !== shown;
    /** @type {HTMLElement} */ (document.getElementById("all-done")).hidden = Boolean(shown) || data.advised;
    if (planned && !advised) this.change(planned, number, pending);
    for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll("[data-turn]"))) {
      const to = number + Number(button.dataset.turn);
      button.disabled = to < 1 || to > data.steps.length;
    }
    const form = /** @type {HTMLFormElement} */ (document.getElementById("log"));
    form.hidden = !shown;
    if (shown) fill(form, shown.dataset, data.work);
  }

  /** Say what to change since what is on the bar. @param {HTMLElement} section @param {number} number
   * @param {boolean} pending */
  change(section, number, pending) {
    const data = /** @type {Data} */ (this.data);
    const to = data.steps[number - 1].state;
    const before = this.done.at(-1)?.number ?? 0;
    const from = data.steps[before - 1]?.state ?? 0;
    const lines = data.left && !pending ? data.left.changes[to] : data.changes[from][to];
    const list = /** @type {HTMLElement} */ (section.querySelector(".change"));
    list.replaceChildren(...lines.map((line) => item(line)));
  }

  /** @param {boolean} pending */
  list(pending) {
    const list = /** @type {HTMLElement} */ (document.getElementById("done"));
    const keep = new Set(this.done.map((one) => one.id));
    for (const row of /** @type {HTMLElement[]} */ ([...list.children])) {
      if (row.classList.contains("waits")) row.remove();
      else row.hidden = !keep.has(row.dataset.id ?? "");
    }
    for (const one of this.done) {
      if (one.words === undefined) continue;
      const row = item("");
      row.className = "waits";
      for (const [kind, text] of [["no", `${one.number}`], ["", one.words], ["load", "waits here"]]) {
        const part = document.createElement("span");
        part.className = kind;
        part.textContent = text;
        row.append(part);
      }
      list.append(row);
    }
    /** @type {HTMLElement} */ (document.getElementById("none")).hidden = this.done.length > 0;
    /** @type {HTMLElement} */ (document.getElementById("undo")).hidden = !this.done.length;
    if (pending) document.querySelector(".advice")?.remove();
  }

  /** Rest before the next set [s]. */
  rest() {
    const number = (this.done.at(-1)?.number ?? 0) + 1;
    return this.data?.steps[number - 1]?.rest_s ?? 0;
  }
}

/** @param {string} text */
function item(text) {
  const found = document.createElement("li");
  found.textContent = text;
  return found;
}

/** Ready the form for a set; what was typed for this set already stays.
 * @param {HTMLFormElement} form @param {DOMStringMap} set @param {string} work */
function fill(form, set, work) {
  const field = (/** @type {string} */ name) => /** @type {HTMLInputElement} */ (form.elements.namedItem(name));
  const key = `${work} ${set.number} ${set.planned}`;
  field("work").value = work;
  field("step").value = set.step ?? "1";
  field("number").value = set.number ?? "1";
  field("planned").value = set.planned ?? "";
  if (form.dataset.for === key) return;
  form.dataset.for = key;
  form.reset();
  field("reps").value = set.reps ?? "1";
}
