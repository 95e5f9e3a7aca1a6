(() => {
  "use strict";
  const base = document.documentElement.dataset.base, here = document.documentElement.dataset.here;
  const said = document.getElementById("said");
  new EventSource(`${base}alive`);

  const say = (text) => { said.hidden = false; said.textContent = text; };
  const work = (text) => {
    document.getElementById("work").hidden = false;
    const line = document.getElementById("doing"), bar = document.getElementById("bar");
    line.textContent = text;
    if (!here) return;
    let most = 0;
    setInterval(async () => {
      const answer = await fetch(`${here}progress`).catch(() => null);
      if (!answer || !answer.ok) return;
      const { path, left } = await answer.json();
      if (!path) return;
      most = Math.max(most, left + 1);
      bar.max = most;
      bar.value = most - left;
      line.textContent = `${text} ${path}`;
    }, 300);
  };

  const send = async (form, files) => {
    if (!files.length) { say("Choose a file first."); return; }
    const list = [...files].map((file) => `${encodeURIComponent(file.name)} ${file.size}`).join(",");
    work("Reading");
    try {
      const answer = await fetch(form.dataset.drop, { method: "POST", headers: { "X-Files": list }, body: new Blob([...files]) });
      const told = (answer.headers.get("content-type") || "").includes("json") ? await answer.json() : { wrong: await answer.text() };
      if (told.go) { location.assign(told.go); if (told.go.includes("#")) location.reload(); return; }
      say(told.wrong);
    } catch {
      say("The page's own program is not running any more. Start it again with: paperwork serve");
    }
    document.getElementById("work").hidden = true;
  };

  for (const form of document.querySelectorAll("form[data-drop]")) {
    const input = form.querySelector("input[type=file]");
    form.addEventListener("submit", (event) => { event.preventDefault(); send(form, input.files); });
    form.addEventListener("dragover", (event) => { event.preventDefault(); form.classList.add("over"); });
    form.addEventListener("dragleave", () => form.classList.remove("over"));
    form.addEventListener("drop", (event) => {
      event.preventDefault();
      form.classList.remove("over");
      send(form, event.dataTransfer.files);
    });
  }
  for (const form of document.querySelectorAll("form[data-long]")) {
    form.addEventListener("submit", () => work(form.dataset.long));
  }
  addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
})();
