// @ts-check
/** Something to see while an answer takes longer than a moment. */

const BEFORE_MS = 300;

export class Progress {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    this.timer = 0;
  }

  /** @param {string} words */
  begin(words) {
    this.end();
    const since = Date.now();
    const tell = () => {
      const seconds = Math.round((Date.now() - since) / 1000);
      if (!this.place.firstChild) {
        const said = document.createElement("p");
        said.textContent = words;
        const bar = document.createElement("div");
        bar.className = "bar";
        const count = document.createElement("span");
        count.className = "seconds";
        count.setAttribute("aria-hidden", "true");
        this.place.append(said, bar, count);
      }
      const count = this.place.querySelector(".seconds");
      if (count) count.textContent = seconds ? `${seconds} s` : "";
    };
    this.timer = window.setTimeout(() => {
      tell();
      this.timer = window.setInterval(tell, 1000);
    }, BEFORE_MS);
  }

  end() {
    window.clearTimeout(this.timer);
    window.clearInterval(this.timer);
    this.place.replaceChildren();
  }
}
