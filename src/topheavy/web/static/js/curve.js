// @ts-check
/**
 * Reading a load curve by its corners: between them it is straight, so nothing is lost.
 * @typedef {[number, number][]} Corners height [m] and load [kg], bottom first
 */

/**
 * Load [kg] at a height [m]; at a jump, the load just below it.
 * @param {Corners} corners
 * @param {number} height
 */
export function loadAt(corners, height) {
  let [lowHeight, lowLoad] = corners[0];
  for (const [highHeight, highLoad] of corners) {
    if (height <= highHeight) {
      if (highHeight === lowHeight) return lowLoad;
      const share = (height - lowHeight) / (highHeight - lowHeight);
      return lowLoad + share * (highLoad - lowLoad);
    }
    lowHeight = highHeight;
    lowLoad = highLoad;
  }
  return lowLoad;
}

/**
 * Links off the floor at a height [m]: each step says from where on how many.
 * @param {[number, number][]} steps
 * @param {number} height
 */
export function linksAt(steps, height) {
  let off = steps[0][1];
  for (const [from, count] of steps) if (height >= from) off = count;
  return off;
}
