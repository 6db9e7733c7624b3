// @ts-check
import { Question } from "./choices.js";
import { Told, askJson, askPart, drop, dropped, remember } from "./fetching.js";
import { PartsForm, withParts } from "./parts.js";
import { Progress } from "./progress.js";
import { Stage } from "./stage.js";
import { UNITS } from "./units.js";
/** The rig page: a question brings a rig, a change follows at once, the bar is dragged. */

const PAUSE_MS = 200;

const bench = document.getElementById("bench");
if (bench) start(bench);

/** @param {HTMLElement} bench */
function start(bench) {
  document.documentElement.classList.add("js");
  const choices = JSON.parse(bench.dataset.choices ?? "{}");
  const form = /** @type {HTMLFormElement} */ (document.getElementById("ask"));
  const answer = /** @type {HTMLElement} */ (document.getElementById("answer"));
  const scene = /** @type {HTMLElement} */ (document.querySelector(".show"));
  const atQuestion = /** @type {HTMLElement} */ (document.getElementById("trouble"));
  const atParts = /** @type {HTMLElement} */ (document.getElementById("parts-trouble"));
  const overlay = /** @type {HTMLInputElement} */ (document.getElementById("overlay"));
  const question = new Question(form, choices);
  const progress = new Progress(/** @type {HTMLElement} */ (document.getElementById("progress")));
  const stage = new Stage();
  const parts = new PartsForm(/** @type {HTMLElement} */ (document.getElementById("parts")), choices, () => question.pegs(), (changed) => {
    follow(changed, true);
  });
  /** The answer of the last search, as it was shown. */
  let foundHtml = "";
  /** Counts what was asked, so that only the newest goes on. */
  let turn = 0;
  /** Keys run through a list: only where they rest is searched. */
  let later = 0;
  const units = () => UNITS[question.value("units")] ?? UNITS.kg;

  /** Tell a mistake beside what brought it; what is shown no longer counts.
   * @param {unknown} error @param {HTMLElement} place */
  function tell(error, place) {
    if (dropped(error)) return;
    progress.end();
    if (error instanceof Told && error.trouble.html) {
      place.innerHTML = error.trouble.html;
    } else {
      const words = document.createElement("p");
      words.textContent = error instanceof Told ? error.message : "topheavy does not answer. Is it still running?";
      const box = document.createElement("div");
      box.className = "trouble";
      box.setAttribute("role", "alert");
      box.append(words);
      place.replaceChildren(box);
    }
    answer.replaceChildren();
    scene.classList.add("old");
    /** @type {HTMLElement} */ (document.getElementById("waiting")).textContent = "No rig to show.";
    if (place === atQuestion) {
      parts.form.hidden = true;
      question.mark(place.querySelector("[data-field]")?.getAttribute("data-field") ?? undefined);
    }
  }

  function clear() {
    atQuestion.replaceChildren();
    atParts.replaceChildren();
    question.mark();
  }

  /** Search the best rig, show it, and everything that hangs on it. */
  async function find() {
    if (!question.complete()) return;
    const query = question.query();
    turn += 1;
    history.replaceState(null, "", `/rig?${query}`);
    clear();
    drop("stage", "chosen", "motion", "straight");
    progress.begin("Searching the whole stock ...");
    answer.classList.add("old");
    try {
      foundHtml = await askPart("found", "/part/found", query);
      answer.innerHTML = foundHtml;
      answer.classList.remove("old");
      progress.end();
      const found = /** @type {HTMLElement} */ (answer.querySelector(".found"));
      const best = JSON.parse(found.dataset.parts ?? "{}");
      parts.set(best, true);
      await follow(best, false);
    } catch (error) {
      tell(error, atQuestion);
    }
  }

  /** Follow a rig: stage at once, then its words, then all its heights.
   * @param {import("./parts.js").Parts} chosen @param {boolean} changed whether its words must be read too */
  async function follow(chosen, changed) {
    const query = withParts(question.query(), chosen);
    const at = new URLSearchParams(query);
    turn += 1;
    const own = turn;
    if (Number.isFinite(stage.height)) at.set("height", `${stage.height.toFixed(4)} m`);
    drop("chosen", "motion", "straight");
    try {
      clear();
      if (changed) answer.classList.add("old");
      stage.set(await askJson("stage", "/api/rig/stage", at), units());
      scene.classList.remove("old");
      parts.tell(stage.ends());
      // Several taps in a row: the stage follows each, the rest only the last.
      if (changed) await new Promise((go) => setTimeout(go, PAUSE_MS));
      if (own !== turn) return;
      await Promise.all([
        changed ? words(query, chosen) : undefined,
        askJson("motion", "/api/rig/motion", query).then((data) => stage.setMotion(data)),
        lay(query),
      ]);
    } catch (error) {
      tell(error, atParts);
    }
  }

  /** Read a changed rig; the found one needs no reading. The others stay beside it.
   * @param {URLSearchParams} query @param {import("./parts.js").Parts} chosen */
  async function words(query, chosen) {
    if (parts.isFound(chosen)) {
      drop("chosen");
      answer.innerHTML = foundHtml;
    } else {
      answer.innerHTML = await askPart("chosen", "/part/chosen", query);
      const before = document.createElement("template");
      before.innerHTML = foundHtml;
      const others = before.content.querySelector(".others");
      if (others) answer.querySelector(".steps")?.before(others);
    }
    answer.classList.remove("old");
  }

  /** Lay the straight-hung chain over it, where it is wanted. @param {URLSearchParams} query */
  async function lay(query) {
    if (!overlay.checked) {
      drop("straight");
      stage.setStraight(null);
      return;
    }
    const straight = new URLSearchParams(query);
    straight.set("straight", "true");
    stage.setStraight(await askJson("straight", "/api/rig/motion", straight));
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    window.clearTimeout(later);
    find();
  });
  // The units stand in the head of the page, outside the form they belong to.
  document.addEventListener("change", (event) => {
    const field = event.target;
    if (!(field instanceof HTMLInputElement || field instanceof HTMLSelectElement) || field.form !== form) return;
    if (field.name === "units") remember(field.value);
    question.follow();
    window.clearTimeout(later);
    later = window.setTimeout(find, PAUSE_MS);
  });
  overlay.addEventListener("change", () => {
    if (parts.parts) lay(withParts(question.query(), parts.parts)).catch((error) => tell(error, atParts));
  });
  for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-go]"))) {
    button.addEventListener("click", () => stage.move(button.dataset.go === "top" ? Infinity : -Infinity));
  }
  answer.addEventListener("click", (event) => {
    const button = /** @type {HTMLElement} */ (event.target).closest("[data-show]");
    if (!(button instanceof HTMLElement)) return;
    parts.set(JSON.parse(button.dataset.show ?? "{}"), false);
    if (parts.parts) follow(parts.parts, true);
    document.getElementById("stage")?.scrollIntoView({ block: "nearest" });
  });
  question.follow();
  find();
}
