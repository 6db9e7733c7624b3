// @ts-check
/** The rest since the last set, counted from the moment it was logged; it survives a reload. */

const KEY = "topheavy-rest";

export class Clock {
  constructor() {
    this.place = /** @type {HTMLElement} */ (document.getElementById("clock"));
    this.over = false;
    window.setInterval(() => this.tell(), 500);
    this.tell();
  }

  /** @param {string} session @param {number} rest_s */
  start(session, rest_s) {
    this.over = false;
    localStorage.setItem(KEY, JSON.stringify({ session, rest_s, since: Date.now() }));
    this.tell();
  }

  stop() {
    localStorage.removeItem(KEY);
    this.tell();
  }

  tell() {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "null");
    const passed = kept ? Math.floor((Date.now() - kept.since) / 1000) : 0;
    this.place.hidden = !kept || passed > 3600 || passed < 0 || !kept.rest_s;
    if (this.place.hidden) return;
    const done = passed >= kept.rest_s;
    /** @type {HTMLElement} */ (document.getElementById("rested")).textContent = minutes(passed);
    /** @type {HTMLElement} */ (document.getElementById("rest-of")).textContent = done
      ? `of ${minutes(kept.rest_s)}: rested`
      : `of ${minutes(kept.rest_s)}`;
    this.place.classList.toggle("over", done);
    if (done && !this.over && passed < kept.rest_s + 5) navigator.vibrate?.(200);
    this.over = done;
  }
}

/** @param {number} seconds */
const minutes = (seconds) => `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
