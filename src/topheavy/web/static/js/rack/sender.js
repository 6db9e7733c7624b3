// @ts-check
import { drop, keep, waiting } from "./queue.js";
/** Sends what waits. An entry leaves the phone only when the server says that it has it. */

/** @typedef {"sent"|"no network"|"signed out"|"trouble"} Sent */

const AT_ONCE = 100;

/** Only one sends at a time, over all pages of this phone where the browser can lock.
 * @returns {Promise<Sent>} */
export async function sendAll() {
  if (!navigator.locks) return sendNow();
  return navigator.locks.request("topheavy-rack-send", sendNow);
}

/** @type {Promise<Sent>|undefined} */
let under;

/** @returns {Promise<Sent>} */
function sendNow() {
  under ??= attempt().finally(() => {
    under = undefined;
  });
  return under;
}

/** @returns {Promise<Sent>} */
async function attempt() {
  const all = (await waiting()).filter((one) => !one.refused);
  if (!all.length) return "sent";
  try {
    const asked = await fetch("/api/me", { cache: "no-store" });
    if (asked.status === 401) return "signed out";
    if (!asked.ok) return "trouble";
    const me = await asked.json();
    // What somebody else wrote on this phone waits for them; so does what is of another gym.
    const mine = all.filter((one) => one.gym === me.gym && (one.owner === me.name || me.role === "coach"));
    for (let from = 0; from < mine.length; from += AT_ONCE) {
      const some = mine.slice(from, from + AT_ONCE);
      const answer = await fetch("/api/sets", {
        method: "POST",
        headers: { "Content-Type": "application/json", "X-Csrf-Token": me.csrf },
        body: JSON.stringify({ sets: some.map((one) => one.set) }),
      });
      if (answer.status === 401) return "signed out";
      if (!answer.ok) return "trouble";
      await settle(some, (await answer.json()).answers);
    }
    return mine.length < all.length ? "signed out" : "sent";
  } catch (error) {
    if (error instanceof TypeError) return "no network";
    throw error;
  }
}

/** @param {import("./queue.js").Waiting[]} sent
 * @param {{outcome: string, trouble: import("./queue.js").Waiting["refused"]}[]} answers */
async function settle(sent, answers) {
  for (const [place, one] of sent.entries()) {
    const answer = answers[place];
    if (answer.outcome === "refused") await keep({ ...one, refused: answer.trouble });
    else await drop(/** @type {number} */ (one.at));
  }
}
