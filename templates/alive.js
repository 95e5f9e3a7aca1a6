/* What every page of the program shares: where it is, how it speaks, and that it is there. */
const paperwork = (() => {
  "use strict";
  const base = document.documentElement.dataset.base, here = document.documentElement.dataset.here;
  const GONE = "paperwork is not running any more. Start it again as you did before, or with: paperwork serve";
  const BEAT_MS = 5000, tab = crypto.randomUUID();
  const by = (id) => document.getElementById(id);
  const say = (text) => { by("said").hidden = !text; by("said").textContent = text; if (text) by("said").scrollIntoView({ block: "nearest" }); };
  const beat = () => fetch(`${base}alive`, { method: "POST", body: new URLSearchParams({ tab }) }).catch(() => say(GONE));
  beat();
  setInterval(beat, BEAT_MS);
  addEventListener("pagehide", () => navigator.sendBeacon(`${base}alive`, new URLSearchParams({ tab, gone: "yes" })));
  return { base, here, tab, by, say, GONE };
})();
