(() => {
  "use strict";
  const { base, here, tab, by, say, GONE } = paperwork;
  const ask = async () => {
    const answer = here ? await fetch(`${here}progress`).catch(() => null) : null;
    return answer && answer.ok ? answer.json() : {};
  };
  let asking = 0, most = 0;
  const tell = async (text) => {
    const { path, left } = await ask();
    if (!path || !asking) return;
    most = Math.max(most, left + 1);
    by("bar").max = most;
    by("bar").value = most - left;
    by("which").textContent = `${path}, ${most - left} of ${most}`;
  };
  const work = (text) => {
    by("work").hidden = false;
    by("doing").textContent = text;
    asking = text === "Making" ? setInterval(tell, 250) : 0;
    setTimeout(() => { for (const button of document.querySelectorAll("button")) button.disabled = true; });
  };
  const rest = () => {
    clearInterval(asking);
    by("work").hidden = true;
    for (const button of document.querySelectorAll("button")) button.disabled = false;
  };

  const send = async (address, files) => {
    if (!files.length) { say("That is not a file. Choose one, or drop one here."); return; }
    const list = [...files].map((file) => `${encodeURIComponent(file.name)} ${file.size}`).join(",");
    work("Reading");
    try {
      const answer = await fetch(address, { method: "POST", headers: { "X-Files": list }, body: new Blob([...files]) });
      const found = (answer.headers.get("content-type") || "").includes("json") ? await answer.json() : { wrong: await answer.text() };
      if (found.go) { location.assign(found.go); if (found.go.includes("#")) location.reload(); return; }
      say(found.wrong);
    } catch {
      say(GONE);
    }
    rest();
  };
  for (const form of document.querySelectorAll("form[data-drop]")) {
    form.addEventListener("submit", (event) => event.preventDefault());
    form.querySelector("input").addEventListener("change", (event) => send(form.dataset.drop, event.target.files));
  }
  const place = (event) => event.target instanceof Element && event.target.closest("form[data-drop]") || document.querySelector("form[data-drop$='/drop']");
  const lift = (event, on) => {
    event.preventDefault();
    for (const form of document.querySelectorAll("form.over")) form.classList.remove("over");
    if (on) place(event)?.classList.add("over");
  };
  addEventListener("dragover", (event) => lift(event, true));
  addEventListener("dragleave", (event) => lift(event, false));
  addEventListener("drop", (event) => {
    lift(event, false);
    send(place(event)?.dataset.drop ?? `${base}drop`, event.dataTransfer.files);
  });

  const save = async (link) => {
    work(link.dataset.save);
    try {
      const answer = await fetch(link.href);
      if (!answer.ok) throw new Error(await answer.text());
      const saved = document.createElement("a");
      saved.href = URL.createObjectURL(await answer.blob());
      saved.download = decodeURIComponent(answer.headers.get("content-disposition").split("''")[1]);
      saved.click();
      setTimeout(() => URL.revokeObjectURL(saved.href), 60000);
    } catch (error) {
      say(error instanceof TypeError ? GONE : error.message);
    }
    rest();
  };
  for (const link of document.querySelectorAll("a[data-save]")) {
    link.addEventListener("click", (event) => { event.preventDefault(); save(link); });
  }

  for (const button of document.querySelectorAll("button[data-act]")) {
    button.addEventListener("click", async () => {
      const answer = await acts.send(button.dataset.act, [["way", "own"]]);
      if (!answer) return;
      if (answer.clash) location.assign(`${here}edit/#clash`);
      else if (answer.wrong) say(answer.wrong);
      else location.reload();
    });
  }
  for (const button of document.querySelectorAll("button[data-fix]")) {
    button.addEventListener("click", async () => {
      const { code, fix } = button.dataset;
      if (await acts.use({ code, text: fix })) location.reload();
    });
  }

  /* The browser's own dialog on the PDF itself; in a tab of its own where a frame cannot be printed. */
  for (const button of document.querySelectorAll("button[data-print]")) {
    button.addEventListener("click", () => {
      by("printed")?.remove();
      const frame = acts.make("iframe", { id: "printed", className: "away", title: "What is printed", src: button.dataset.print });
      frame.tabIndex = -1;
      frame.addEventListener("load", () => {
        try { frame.contentWindow.focus(); frame.contentWindow.print(); } catch { open(button.dataset.print, "_blank"); }
      });
      document.body.append(frame);
    });
  }

  let touched = false;
  addEventListener("input", () => { touched = true; });
  for (const form of document.querySelectorAll("form[data-long]")) {
    form.addEventListener("submit", () => { touched = false; work(form.dataset.long); });
  }
  for (const button of document.querySelectorAll("[data-all]")) {
    button.addEventListener("click", () => {
      for (const radio of button.closest("[data-screen]").querySelectorAll("input[type=radio]")) radio.checked = radio.value === button.dataset.all;
    });
  }
  const peel = document.querySelector(".peel");
  let peeling = null;
  const stroke = (event) => {
    const box = event.target.closest("label")?.querySelector("input");
    if (!box || event.pointerType !== "mouse" || !(event.buttons & 1)) return;
    if (event.type === "pointerdown") peeling = { box, on: !box.checked };
    else if (peeling) { peeling.box.checked = box.checked = peeling.on; peeling.moved = true; touched = true; keep(); }
  };
  peel?.addEventListener("pointerdown", stroke);
  peel?.addEventListener("pointerover", stroke);
  peel?.addEventListener("dragstart", (event) => event.preventDefault());
  peel?.addEventListener("click", (event) => { if (peeling?.moved && event.detail) event.preventDefault(); peeling = null; });

  const labels = by("label-form");
  const papers = labels ? [...labels.querySelectorAll("a")].map((link) => link.pathname.split("/papers/")[1]) : [];
  const close = () => {
    by("unlaid").hidden = false;
    for (const button of document.querySelectorAll("button[data-print]")) if (papers.some((path) => button.dataset.print.endsWith(`/${path}`))) button.disabled = true;
    for (const link of document.querySelectorAll("a[href]")) {
      if (!papers.some((path) => link.pathname.endsWith(`/${path}`))) continue;
      link.removeAttribute("href");
      link.setAttribute("aria-disabled", "true");
    }
  };
  if (labels && "unlaid" in labels.dataset) close();
  const keep = () => {
    close();
    fetch(labels.dataset.keep, { method: "POST", body: new URLSearchParams(new FormData(labels)), keepalive: true }).catch(() => say(GONE));
  };
  labels?.addEventListener("change", keep);

  const look = async () => {
    const { saved } = document.hidden ? {} : await ask();
    if (saved && !touched) location.reload();
    else if (saved) say("The file was saved again. Reload the page to read it; your ticks here will be lost.");
  };
  const shared = document.querySelector("[data-paired]");
  if (shared) {
    setInterval(async () => {
      const { paired } = document.hidden ? {} : await ask();
      if (paired !== undefined && String(paired) !== shared.dataset.paired && !touched) location.reload();
    }, 2000);
  }
  addEventListener("focus", look);
  document.addEventListener("visibilitychange", look);
  document.querySelector("form[action$='/stop']")?.addEventListener("formdata", (event) => event.formData.set("tab", tab));
  addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
})();
