// The wall follows clock and log by itself; without the network it says since when it stands still.
const place = document.querySelector("#wall");
const EACH_MS = 4000;
let tag = "";

async function again() {
  try {
    const answer = await fetch(place.dataset.part, { headers: tag ? { "If-None-Match": tag } : {}, cache: "no-store" });
    if (answer.status === 200) {
      place.innerHTML = await answer.text();
      tag = answer.headers.get("ETag") ?? "";
    }
    place.classList.toggle("stale", !(answer.ok || answer.status === 304));
  } catch {
    place.classList.add("stale");
  }
  setTimeout(again, EACH_MS);
}

setTimeout(again, EACH_MS);
