// @ts-check
/** Numbers as people see them: kg and cm, or lb and in. */

const KG_PER_LB = 0.45359237;
const M_PER_IN = 0.0254;

/**
 * @typedef {object} Units
 * @property {string} name
 * @property {string} mass unit of loads
 * @property {string} length unit of heights
 * @property {number} kg kilograms of one
 * @property {number} m metres of one
 * @property {number} step metres that an arrow key moves the bar
 */

/** @type {Record<string, Units>} */
export const UNITS = {
  kg: { name: "kg", mass: "kg", length: "cm", kg: 1, m: 0.01, step: 0.01 },
  lb: { name: "lb", mass: "lb", length: "in", kg: KG_PER_LB, m: M_PER_IN, step: M_PER_IN / 2 },
};

/** @param {Units} units @param {number} kg */
export const massText = (units, kg) => `${(kg / units.kg).toFixed(1)} ${units.mass}`;

/** @param {Units} units @param {number} m */
export const lengthText = (units, m) => `${(m / units.m).toFixed(1)} ${units.length}`;

/** The smallest step of 1, 2 or 5 times a power of ten that is not below `least`.
 * @param {number} least */
export function niceStep(least) {
  const power = 10 ** Math.floor(Math.log10(least));
  return (/** @type {number[]} */ ([1, 2, 5, 10]).find((f) => f * power >= least * 0.999999) ?? 10) * power;
}
