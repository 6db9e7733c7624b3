// @ts-check
/** Asking the server: the newest question of a kind wins, older ones are dropped. */

/** @typedef {{message: string, html?: string}} Trouble */

/** A mistake told by the server, in its words. */
export class Told extends Error {
  /** @param {Trouble} trouble */
  constructor(trouble) {
    super(trouble.message);
    this.trouble = trouble;
  }
}

/** @type {Map<string, AbortController>} */
const asked = new Map();

/** Ask and read the whole answer; whatever was asked before under the same name is given up.
 * @param {string} name @param {string} path @param {URLSearchParams} query */
async function ask(name, path, query) {
  drop(name);
  const control = new AbortController();
  asked.set(name, control);
  const response = await fetch(`${path}?${query}`, { signal: control.signal });
  const text = await response.text();
  control.signal.throwIfAborted();
  asked.delete(name);
  return { ok: response.ok, text };
}

/** Give up what was asked under these names. @param {...string} names */
export function drop(...names) {
  for (const name of names) {
    asked.get(name)?.abort();
    asked.delete(name);
  }
}

/** @param {string} name @param {string} path @param {URLSearchParams} query */
export async function askJson(name, path, query) {
  const { ok, text } = await ask(name, path, query);
  const body = JSON.parse(text);
  if (ok) return body;
  const facts = [body.detail, body.got && `Got ${body.got}.`, body.wanted && `Wanted: ${body.wanted}.`];
  throw new Told({ message: facts.filter(Boolean).join(" ") });
}

/** @param {string} name @param {string} path @param {URLSearchParams} query */
export async function askPart(name, path, query) {
  const { ok, text } = await ask(name, path, query);
  if (ok) return text;
  throw new Told({ message: "", html: text });
}

/** Whether an error only says that something newer was asked. @param {unknown} error */
export const dropped = (error) => error instanceof DOMException && error.name === "AbortError";

/** Remember what this visitor wants to see; nothing waits for it. @param {string} units */
export function remember(units) {
  const token = document.querySelector('meta[name="csrf-token"]')?.getAttribute("content") ?? "";
  const body = new URLSearchParams({ units });
  fetch("/units", { method: "POST", body, headers: { "X-Csrf-Token": token }, redirect: "manual" }).catch(() => {});
}
