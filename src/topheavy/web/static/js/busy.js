// @ts-check
/** Whatever takes a while says so, with the seconds; everything works without this too. */

import { Progress } from "/static/js/progress.js";

const FILE_MS = 15_000;
const bottom = document.getElementById("busy");
/** @type {Progress | null} */
let shown = null;

/**
 * @param {Element} asked
 * @param {string} words
 */
function begin(asked, words) {
  const place = asked.querySelector(".progress") ?? bottom;
  if (!(place instanceof HTMLElement)) return;
  shown?.end();
  shown = new Progress(place);
  shown.begin(words);
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || !(form instanceof HTMLFormElement)) return;
  begin(form, form.dataset.waits ?? "Working");
});

document.addEventListener("click", (event) => {
  const link = event.target instanceof Element ? event.target.closest("a[href]") : null;
  const elsewhere = event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey || event.button;
  if (!(link instanceof HTMLAnchorElement) || elsewhere) return;
  const stays = link.hasAttribute("download") || link.target || link.getAttribute("href")?.startsWith("#");
  if (stays) return;
  begin(link, "Working");
  // A file may be put away instead of shown: then this page stays.
  if (/\.\w+$/.test(link.pathname)) window.setTimeout(() => shown?.end(), FILE_MS);
});

// Back from wherever it led: nothing is being done any more.
window.addEventListener("pageshow", () => shown?.end());
