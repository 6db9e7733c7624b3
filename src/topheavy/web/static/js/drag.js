// @ts-check
/** Dragging the bar: by mouse, by touch, by keys. */

/**
 * @typedef {object} Rail
 * @property {() => number} height where the bar is [m]
 * @property {(height: number) => void} move bring it to a height [m]; kept inside the lift
 * @property {() => [number, number]} ends bottom and top [m]
 * @property {() => number} step what an arrow key moves [m]
 * @property {(y: number) => number} heightOf height [m] of a place on the screen
 */

/** @param {HTMLElement} grab @param {HTMLElement} stage @param {Rail} rail */
export function makeDraggable(grab, stage, rail) {
  let held = -1;
  let offset = 0;

  grab.addEventListener("pointerdown", (event) => {
    if (event.button) return;
    held = event.pointerId;
    offset = rail.height() - rail.heightOf(event.clientY);
    grab.setPointerCapture(held);
    grab.classList.add("held");
    grab.focus({ preventScroll: true });
    event.preventDefault();
  });
  grab.addEventListener("pointermove", (event) => {
    if (event.pointerId === held) rail.move(rail.heightOf(event.clientY) + offset);
  });
  for (const end of ["pointerup", "pointercancel"]) {
    grab.addEventListener(end, () => {
      held = -1;
      grab.classList.remove("held");
    });
  }
  // A click beside the bar brings it there; a finger may be scrolling, so only the mouse does.
  stage.addEventListener("pointerdown", (event) => {
    if (event.pointerType !== "mouse" || event.button || grab.hidden || grab.contains(/** @type {Node} */ (event.target))) return;
    rail.move(rail.heightOf(event.clientY));
    grab.focus({ preventScroll: true });
    event.preventDefault();
  });
  grab.addEventListener("keydown", (event) => {
    const [bottom, top] = rail.ends();
    const step = rail.step();
    /** @type {Record<string, number>} */
    const to = {
      ArrowUp: rail.height() + step,
      ArrowRight: rail.height() + step,
      ArrowDown: rail.height() - step,
      ArrowLeft: rail.height() - step,
      PageUp: rail.height() + 10 * step,
      PageDown: rail.height() - 10 * step,
      Home: bottom,
      End: top,
    };
    if (!(event.key in to) || event.ctrlKey || event.metaKey || event.altKey) return;
    rail.move(to[event.key]);
    event.preventDefault();
  });
}
