// @ts-check
import { drop, keep } from "./queue.js";
/** Sets that the server refused: kept, shown with the reason, and only a person lets go of one. */

/** @param {import("./queue.js").Waiting[]} waiting @param {() => void} again */
export function showRefused(waiting, again) {
  const place = /** @type {HTMLElement} */ (document.getElementById("refused"));
  const some = waiting.filter((one) => one.refused);
  place.hidden = !some.length;
  const list = document.createElement("ul");
  list.append(...some.map((one) => row(one, again)));
  const head = document.createElement("p");
  head.append(bold("Not logged. It is kept on this phone:"));
  place.replaceChildren(head, list);
}

/** @param {import("./queue.js").Waiting} one @param {() => void} again */
function row(one, again) {
  const found = document.createElement("li");
  const said = document.createElement("div");
  const why = one.refused;
  const facts = [why?.detail, why?.got && `Got ${why.got}.`, why?.wanted && `Wanted: ${why.wanted}.`];
  said.textContent = `${one.words} (${one.session}). ${facts.filter(Boolean).join(" ")}`;
  const tools = document.createElement("div");
  tools.className = "tools";
  const retry = button("Send again", async () => {
    const { refused: _, ...rest } = one;
    await keep(rest);
    again();
  });
  const forget = button("Delete it here", async () => {
    if (forget.dataset.sure) {
      await drop(/** @type {number} */ (one.at));
      again();
      return;
    }
    forget.dataset.sure = "yes";
    forget.textContent = "Delete it: it will be in no log";
  });
  tools.append(retry, forget);
  found.append(said, tools);
  return found;
}

/** @param {string} words @param {() => Promise<void>} act */
function button(words, act) {
  const found = document.createElement("button");
  found.type = "button";
  found.className = "button";
  found.textContent = words;
  found.addEventListener("click", act);
  return found;
}

/** @param {string} words */
function bold(words) {
  const found = document.createElement("strong");
  found.textContent = words;
  return found;
}
