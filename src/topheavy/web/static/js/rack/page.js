// @ts-check
import { Clock } from "./clock.js";
import { Live } from "./live.js";
import { keep, newId, waiting } from "./queue.js";
import { showRefused } from "./refused.js";
import { sendAll } from "./sender.js";
/** The phone at the rack: a set is kept here first, then sent; the plan is asked for again and again. */

const EACH_MS = 4000;

const rack = document.getElementById("rack");
if (rack) start(rack);

/** @param {HTMLElement} rack */
function start(rack) {
  document.documentElement.classList.add("js");
  const form = /** @type {HTMLFormElement|null} */ (document.getElementById("log"));
  const wire = /** @type {HTMLElement} */ (document.getElementById("wire"));
  const live = new Live();
  const clock = form ? new Clock() : undefined;
  let stamp = "";
  let busy = false;

  /** Show what is known here, without asking anybody. */
  async function show() {
    const all = await waiting();
    live.show(all);
    showRefused(all, () => follow());
    return all.filter((one) => !one.refused).length;
  }

  /** @param {string} state @param {number} count */
  function say(state, count) {
    const sets = count === 1 ? "1 entry waits" : `${count} entries wait`;
    const words = {
      sending: "Sending ...",
      sent: count ? `${sets} on this phone.` : "Everything is in the log.",
      "no network": count ? `No network: ${sets} on this phone.` : "No network: go on, sets are kept on this phone.",
      "signed out": count ? `Sign in to send: ${sets} on this phone.` : "Sign in again.",
      trouble: count ? `The server could not take it: ${sets} on this phone.` : "The server does not answer as it should.",
    }[state];
    wire.classList.toggle("waits", count > 0 || state !== "sent");
    if (wire.dataset.said === `${words}`) return;
    wire.dataset.said = `${words}`;
    wire.textContent = `${words} `;
    if (state === "signed out") {
      const link = document.createElement("a");
      link.href = `/sign-in?next=${encodeURIComponent(location.pathname + location.search)}`;
      link.textContent = "Sign in";
      wire.append(link);
    }
  }

  /** Send what waits, then ask what is new. */
  async function follow() {
    if (busy) return;
    busy = true;
    try {
      let state = String(await sendAll());
      if (state === "sent" || state === "trouble") state = (await refresh()) ?? state;
      say(state, await show());
    } finally {
      busy = false;
    }
  }

  /** Ask for the work anew; the same as before is not sent again. */
  async function refresh() {
    try {
      const answer = await fetch(/** @type {string} */ (rack.dataset.part), {
        headers: stamp ? { "If-None-Match": stamp } : {},
        cache: "no-store",
      });
      if (answer.status === 401) return "signed out";
      if (answer.status === 304) return undefined;
      if (!answer.ok) return "trouble";
      const text = await answer.text();
      stamp = answer.headers.get("ETag") ?? "";
      swap(text);
      live.read();
      return undefined;
    } catch {
      return "no network";
    }
  }

  /** @param {Record<string, unknown>} set @param {string} words */
  async function put(set, words) {
    await keep({
      owner: rack.dataset.owner ?? "",
      gym: rack.dataset.gym ?? "",
      session: live.data?.session ?? "",
      words,
      set,
    });
    live.turned = null;
    say("sending", await show());
    follow();
  }

  form?.addEventListener("submit", async (event) => {
    event.preventDefault();
    const said = new FormData(form);
    const text = (/** @type {string} */ name) => String(said.get(name) ?? "").trim();
    const set = read(text);
    if (text("straight") && set.straight_kg === undefined) {
      wire.textContent = "The plates: a number, with kg or lb.";
      form.querySelector("#straight")?.setAttribute("aria-invalid", "true");
      return;
    }
    form.querySelector("#straight")?.removeAttribute("aria-invalid");
    delete form.dataset.for;
    try {
      await put(set, told(set));
    } catch {
      // Nothing can be kept here, as in some private windows: then it goes straight to the server.
      /** @type {HTMLInputElement} */ (form.elements.namedItem("id")).value = String(set.id);
      form.submit();
      return;
    }
    clock?.start(live.data?.session ?? "", live.rest());
    scrollTo({ top: 0 });
  });

  form?.addEventListener("click", (event) => {
    const by = /** @type {HTMLElement} */ (event.target).dataset.by;
    const reps = /** @type {HTMLInputElement} */ (form.elements.namedItem("reps"));
    if (by) reps.value = `${Math.max(0, Math.min(200, Number(reps.value) + Number(by)))}`;
  });

  document.addEventListener("submit", async (event) => {
    const undo = /** @type {HTMLElement} */ (event.target);
    // Not by its property: a field called id hides that.
    if (undo.getAttribute("id") !== "undo") return;
    event.preventDefault();
    const last = live.done.at(-1);
    if (!last) return;
    clock?.stop();
    await put({ id: newId(), corrects: last.id, struck: true }, `set ${last.number} taken back`);
  });

  document.addEventListener("click", (event) => {
    const turn = /** @type {HTMLElement} */ (event.target).dataset?.turn;
    if (!turn) return;
    const shown = /** @type {HTMLElement|null} */ (document.querySelector(".set[data-number]:not([hidden])"));
    live.turned = Number(shown?.dataset.number ?? (live.data?.steps.length ?? 0) + 1) + Number(turn);
    show();
  });

  addEventListener("online", follow);
  document.addEventListener("visibilitychange", () => !document.hidden && follow());
  window.setInterval(() => !document.hidden && follow(), EACH_MS);
  show().then(follow);
  keepForLater();
}

/** Put what the server sent in the place of what stands there; the form between stays as it is.
 * @param {string} text */
function swap(text) {
  const sent = document.createElement("template");
  sent.innerHTML = text;
  const open = document.getElementById("minds")?.hasAttribute("open");
  for (const id of ["now", "after"]) {
    const part = sent.content.getElementById(id);
    const here = document.getElementById(id);
    // Work came, or was taken away: the whole page is another.
    if (Boolean(part) !== Boolean(here)) return location.reload();
    if (part) here?.replaceWith(part);
  }
  document.getElementById("minds")?.toggleAttribute("open", Boolean(open));
}

/** A set as the server takes it. @param {(name: string) => string} text */
function read(text) {
  /** @type {Record<string, unknown>} */
  const set = {
    id: newId(),
    work: text("work"),
    step: Number(text("step")),
    number: Number(text("number")),
    reps: Number(text("reps")),
    note: text("note"),
    time: new Date().toTimeString().slice(0, 5),
  };
  if (text("missed")) {
    set.missed = true;
    if (text("third")) set.third = text("third");
  } else if (text("left")) set.reps_left = Number(text("left"));
  const kg = mass(text("straight") || text("planned"));
  if (kg !== undefined) set.straight_kg = kg;
  return set;
}

/** A mass as typed [kg]; a bare number is in the units that are shown. @param {string} typed */
function mass(typed) {
  const unit = /** @type {HTMLInputElement} */ (document.getElementById("straight")).placeholder;
  const found = /^(\d+(?:[.,]\d+)?)\s*(kg|lbs?|)$/i.exec(typed);
  if (!found) return undefined;
  const number = Number(found[1].replace(",", "."));
  return (found[2] || unit).toLowerCase().startsWith("lb") ? number * 0.45359237 : number;
}

/** How it went, in words. @param {Record<string, unknown>} set */
function told(set) {
  const reps = set.reps === 1 ? "1 rep" : `${set.reps} reps`;
  if (set.missed) return `${reps}, then missed`;
  return set.reps_left === undefined ? reps : `${reps}, ${set.reps_left} left`;
}

/** Let the page open without a network, where the browser allows it: on https, or on this machine. */
async function keepForLater() {
  if (!("serviceWorker" in navigator)) return;
  try {
    await navigator.serviceWorker.register("/rack-worker.js", { scope: "/rack" });
  } catch {
    return; // No network, or signed out: the one that is there goes on.
  }
  const ready = await navigator.serviceWorker.ready;
  const used = performance.getEntriesByType("resource").map((one) => new URL(one.name));
  const files = used.filter((one) => one.origin === location.origin && one.pathname.startsWith("/static/"));
  ready.active?.postMessage({
    keep: [location.pathname + location.search, ...new Set(files.map((one) => one.pathname))],
  });
}
