// @ts-check
import { Question } from "../choices.js";
import { Progress } from "../progress.js";
/** The form that gives work: lifts follow the lifter, and the search is seen to run. */

const form = /** @type {HTMLFormElement|null} */ (document.getElementById("give"));
if (form) {
  const question = new Question(form, JSON.parse(form.dataset.choices ?? "{}"));
  const progress = new Progress(/** @type {HTMLElement} */ (document.getElementById("progress")));
  form.addEventListener("change", () => question.follow());
  form.addEventListener("submit", () => progress.begin("Searching the whole stock ..."));
  addEventListener("pageshow", () => progress.end());
}
