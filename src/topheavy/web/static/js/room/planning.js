// Shows a plan while it gets better: the part is fetched again until planning has ended.
const place = document.querySelector("#planning");
const EACH_MS = 1000;
const MOST_MISSED = 20;

function state() {
  return place.querySelector("[data-state]")?.dataset.state;
}

let missed = 0;

async function again() {
  if (state() !== "planning") return;
  try {
    const answer = await fetch(place.dataset.part, { headers: { Accept: "text/html" } });
    if (answer.ok) {
      show(await answer.text());
      missed = 0;
    } else missed += 1;
  } catch {
    missed += 1;
  }
  if (missed < MOST_MISSED) setTimeout(again, EACH_MS);
}

// What somebody is about to press stays under the finger: the board below changes, the button is kept.
function show(text) {
  const held = document.activeElement?.closest("#planning form")?.getAttribute("action");
  const open = place.querySelector(".scroll:focus")?.getAttribute("aria-label");
  place.innerHTML = text;
  if (held) place.querySelector(`form[action="${held}"] button`)?.focus();
  else if (open) [...place.querySelectorAll(".scroll")].find((one) => one.getAttribute("aria-label") === open)?.focus();
}

setTimeout(again, EACH_MS);
