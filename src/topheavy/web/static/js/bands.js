// @ts-check
import { el, select } from "./elements.js";
/**
 * Bands changed by hand: in pairs, one on each end, on the same peg in the same way.
 * @typedef {{tag: string, peg: string, doubled: boolean}} BandPart
 * @typedef {{left_bands: BandPart[], right_bands: BandPart[]}} Hung
 */

const MOST = 2;
const NONE = "none";

/** A band as the server takes it. @param {BandPart} band */
export function bandWords(band) {
  return `${band.tag}${band.doubled ? " doubled" : ""} on ${band.peg}`;
}

/** A row for each pair that hangs, and one for another pair while there are bands left.
 * @param {Hung} hung @param {import("./choices.js").BandChoice[]} bands @param {string[]} pegs
 * @param {(change: Hung) => void} go */
export function bandRows(hung, bands, pegs, go) {
  if (!bands.length || !pegs.length) return [];
  const used = [...hung.left_bands, ...hung.right_bands].map((one) => one.tag);
  const free = bands.map((one) => one.tag).filter((tag) => !used.includes(tag));
  const rows = hung.left_bands.map((_, at) => pairRow(hung, at, free, bands, pegs, go));
  if (rows.length < MOST && free.length >= 2) rows.push(pairRow(hung, rows.length, free, bands, pegs, go));
  return rows;
}

/** @param {Hung} hung @param {number} at @param {string[]} free
 * @param {import("./choices.js").BandChoice[]} bands @param {string[]} pegs @param {(change: Hung) => void} go */
function pairRow(hung, at, free, bands, pegs, go) {
  const [left, right] = [hung.left_bands[at], hung.right_bands[at]];
  /** @param {BandPart | undefined} one @param {BandPart | undefined} other */
  const put = (one, other) => {
    const [lefts, rights] = [[...hung.left_bands], [...hung.right_bands]];
    lefts.splice(at, 1, ...(one ? [one] : []));
    rights.splice(at, 1, ...(other ? [other] : []));
    go({ left_bands: lefts, right_bands: rights });
  };
  const first = `band ${at + 1}`;
  const pick = select(`${first} left`, left ? "Left end" : "Another pair", [NONE, ...(left ? [left.tag] : []), ...free], left?.tag ?? NONE, (tag) => {
    if (tag === NONE) return put(undefined, undefined);
    const how = { peg: left?.peg ?? pegs[0], doubled: left?.doubled ?? false };
    const like = bands.find((one) => one.tag === tag)?.like ?? "";
    const other = free.includes(like) ? like : right?.tag ?? free.find((one) => one !== tag) ?? "";
    put({ tag, ...how }, { tag: other, ...how });
  });
  const group = { class: "pair", role: "group", "aria-label": `Pair ${at + 1}` };
  if (!left || !right) return el("div", group, pick);
  /** @param {Partial<BandPart>} change */
  const both = (change) => put({ ...left, ...change }, { ...right, ...change });
  return el(
    "div",
    group,
    pick,
    select(`${first} right`, "Right end", [right.tag, ...free], right.tag, (tag) => put(left, { ...right, tag })),
    select(`${first} peg`, "Peg", pegs, left.peg, (peg) => both({ peg })),
    select(`${first} way`, "Way", ["single", "doubled"], left.doubled ? "doubled" : "single", (way) => both({ doubled: way === "doubled" })),
  );
}
