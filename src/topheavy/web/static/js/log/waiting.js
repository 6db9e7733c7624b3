// @ts-check
/** A form that takes a while says so, with the seconds; it works without this too. */

import { Progress } from "/static/js/progress.js";

for (const form of document.querySelectorAll("form[data-waits]")) {
  const place = form.querySelector(".progress");
  if (form instanceof HTMLFormElement && place instanceof HTMLElement) {
    const progress = new Progress(place);
    form.addEventListener("submit", () => progress.begin(form.dataset.waits ?? ""));
    window.addEventListener("pageshow", () => progress.end());
  }
}
