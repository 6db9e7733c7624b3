// @ts-check
/** Elements made in a line. */

/** @param {string} tag @param {Record<string, string>} attributes @param {...(Node | string)} inside */
export function el(tag, attributes, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...inside);
  return element;
}

/** A field to choose from names.
 * @param {string} key @param {string} name @param {string[]} names @param {string} value
 * @param {(name: string) => void} go */
export function select(key, name, names, value, go) {
  const box = /** @type {HTMLSelectElement} */ (el("select", { id: `part-${key}`, "data-key": key }));
  box.append(...names.map((one) => new Option(one, one, one === value, one === value)));
  box.addEventListener("change", () => go(box.value));
  return el("p", { class: "field" }, el("label", { for: `part-${key}` }, name), box);
}
