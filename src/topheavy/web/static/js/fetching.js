// @ts-check
/** Asking the server: the newest question of a kind wins, older ones are dropped. */

/** @typedef {{message: string, field?: string, html?: string}} Trouble */

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

/** Ask; whatever was asked before under the same name is given up.
 * @param {string} name @param {string} path @param {URLSearchParams} query */
async function ask(name, path, query) {
  drop(name);
  const control = new AbortController();
  asked.set(name, control);
  const response = await fetch(`${path}?${query}`, { signal: control.signal });
  if (asked.get(name) === control) asked.delete(name);
  return response;
}

/** Give up what was asked under a name. @param {string} name */
export function drop(name) {
  asked.get(name)?.abort();
  asked.delete(name);
}

/** @param {string} name @param {string} path @param {URLSearchParams} query */
export async function askJson(name, path, query) {
  const response = await ask(name, path, query);
  const body = await response.json();
  if (!response.ok) {
    const facts = [body.detail, body.got && `Got ${body.got}.`, body.wanted && `Wanted: ${body.wanted}.`];
    throw new Told({ message: facts.filter(Boolean).join(" "), field: body.field });
  }
  return body;
}

/** @param {string} name @param {string} path @param {URLSearchParams} query */
export async function askPart(name, path, query) {
  const response = await ask(name, path, query);
  const html = await response.text();
  if (!response.ok) throw new Told({ message: "", html });
  return html;
}

/** Whether an error only says that something newer was asked. @param {unknown} error */
export const dropped = (error) => error instanceof DOMException && error.name === "AbortError";
