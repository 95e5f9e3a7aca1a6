/* How far a search is: asked for now and then, with an estimate from how long it took so far. */
(() => {
  "use strict";
  const part = document.querySelector("[data-searching]");
  if (!part) return;
  const { here, by } = paperwork, began = Date.now(), EVERY_MS = 500;
  const wait = (seconds) => seconds > 90 ? `about ${Math.round(seconds / 60)} minutes left` : `about ${Math.max(1, Math.round(seconds))} s left`;
  const ask = async () => {
    const answer = await fetch(`${here}search/progress`).catch(() => null);
    if (!answer?.ok) return;
    const { running, placed, percent } = await answer.json();
    if (!running) { clearInterval(asking); location.reload(); return; }
    if (percent) {
      by("search-bar").value = percent;
      by("sofar").textContent = `${placed} placed, ${percent} % of the effort`;
      by("left").textContent = wait((Date.now() - began) / 1000 / percent * (100 - percent));
    }
  };
  const asking = setInterval(ask, EVERY_MS);
  ask();
})();
