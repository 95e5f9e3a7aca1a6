/* The show as tables: what is typed is sent as edits of the show file, and what comes back is the table as it then is. */
(() => {
  "use strict";
  const { here, by, say, GONE } = paperwork, { make, tag, dialog } = acts;
  const OFFERED = 40;
  const wanted = {};
  let section = "", shown = null, live = null, waits = 0, work = Promise.resolve();

  const quote = (text) => text.replace(/%/g, "%25").replace(/\//g, "%2F").replace(/=/g, "%3D");
  const path = (id, field) => (shown.single ? `${quote(shown.section)}/${quote(field)}` : `${quote(shown.section)}/${quote(id)}/${quote(field)}`);
  const ask = (where, fields) => {
    const body = fields && new URLSearchParams(fields);
    const answer = work.then(() => fetch(`${here}edit/${where}`, body ? { method: "POST", body } : {})).then((one) => one.json());
    work = answer.catch(() => {});
    return answer.catch(() => { say(GONE); return null; });
  };
  const of = () => ({ live: "scenes", findings: "channels", card: "channels" })[section] ?? section;
  const listed = () => section === "findings" || section === "card";
  const send = async (where, fields = []) => {
    waits += 1;
    by("kept").textContent = "working";
    const answer = await ask(where, [["section", of()], ...fields]);
    waits -= 1;
    if (!answer) return null;
    if (!waits || answer.wrong) take(answer);
    say(answer.wrong ?? answer.said ?? "");
    if (answer.clash) settle();
    return answer;
  };

  const field = (r, c) => (shown.single ? shown.fields[r] : c ? columnsOf()[c - 1] : null);
  const columnsOf = () => shown.fields.filter((one) => one.shown || wanted[section]?.has(one.name));
  const named = () => shown.rows.map((row) => row.id);
  const nextId = (taken) => {
    const last = taken.at(-1) ?? (shown.section === "channels" ? "00" : "");
    const parts = /^(.*?)(\d+)$/.exec(last);
    if (!parts) return "";
    for (let n = Number(parts[2]) + 1; ; n++) {
      const id = parts[1] + String(n).padStart(parts[2].length, "0");
      if (!taken.includes(id)) return id;
    }
  };
  const changeLive = (changes) => send("make", changes.map(([r, c, text]) => {
    const scene = shown.rows[r], role = live[c - 1];
    const now = shown.live[scene.id] ?? [];
    shown.live[scene.id] = text ? [...now, role] : now.filter((one) => one !== role);
    return ["edit", `scenes/${quote(scene.id)}/live=${shown.live[scene.id].join(", ")}`];
  }));
  const change = (changes) => {
    if (section === "live") { changeLive(changes); draw(); return; }
    const ids = named(), known = ids.length, renames = [], fields = [];
    for (const [r, c, text] of changes) if (!shown.single && c === 0 && r >= known && text) {
      if (ids.includes(text)) { say(`${text} is there already: nothing was changed.`); return; }
      ids[r] = text;
    }
    for (const [r, c, text] of changes) {
      if (shown.single) { fields.push(["edit", `${path("", shown.fields[r].name)}=${text}`]); shown.rows[0].cells[shown.fields[r].name] = text; continue; }
      if (c === 0 && r < known) {
        if (!text) { say("A row needs a name. To remove it, delete the row."); continue; }
        renames.push(["edit", `${path(shown.rows[r].id, "")}=${text}`]);
      }
      if (c === 0 || (r >= known && !text)) continue;
      ids[r] ||= nextId(ids.filter(Boolean));
      if (!ids[r]) { say(`Name the ${shown.word} first.`); grid.go(r, 0); return; }
      shown.rows[r] ??= { id: ids[r], cells: {} };
      shown.rows[r].cells[columnsOf()[c - 1].name] = text;
      fields.push(["edit", `${path(ids[r], columnsOf()[c - 1].name)}=${text}`]);
    }
    for (let r = known; r < ids.length; r++) if (ids[r] && !shown.rows[r]) { shown.rows[r] = { id: ids[r], cells: {} }; fields.unshift(["add", `${shown.section}/${ids[r]}`]); }
    shown.rows = shown.rows.filter(Boolean);
    if (fields.length || renames.length) send("make", [...fields, ...renames]);
    draw();
  };

  const choose = (r, c, typed) => {
    const one = field(r, c);
    if (!one || section === "live") return [];
    const parts = one.many || one.name === "live" || one.name === "alternates" ? typed.split(/,\s*/) : [typed], last = parts.at(-1).trim().toLocaleLowerCase();
    const column = shown.single ? [] : shown.rows.map((row) => row.cells[one.name] ?? "");
    const known = one.choices.length ? one.choices : one.refers.length ? one.refers.flatMap((to) => shown.known[to] ?? []) : column;
    const fits = [...new Set(known)].filter((text) => text && text.toLocaleLowerCase() !== last && text.toLocaleLowerCase().includes(last) && !parts.slice(0, -1).includes(text));
    if (!one.choices.length && !one.refers.length && !last) return [];
    fits.sort((a, b) => b.toLocaleLowerCase().startsWith(last) - a.toLocaleLowerCase().startsWith(last));
    return fits.slice(0, OFFERED).map((text) => ({ shown: text, text: [...parts.slice(0, -1), text].join(", ") }));
  };
  const attempt = async (r, c, text) => {
    const one = field(r, c), row = shown.rows[r];
    if (!one || (!shown.single && !row) || !text) return "";
    const answer = await fetch(`${here}edit/try`, { method: "POST", body: new URLSearchParams([["edit", `${path(row?.id ?? "", one.name)}=${text}`]]) }).then((got) => got.json()).catch(() => null);
    if (!answer) return "";
    if (answer.wrong) return answer.wrong;
    const own = answer.findings.filter((found) => found.field === one.name && found.id === (shown.single ? "" : row.id)), more = answer.findings.filter((found) => found.new);
    const first = own[0] ?? more[0];
    return first ? `${first.severity}: ${first.text}` : "";
  };

  const useButton = (found) => {
    const button = make("button", { className: "plain small", textContent: "Use it", type: "button" });
    button.setAttribute("aria-label", `Use it: ${found.fix}`);
    button.addEventListener("click", () => preview(found));
    return button;
  };
  const item = (found, linked) => {
    const li = make("li", {}, make("p", {}, tag(found.severity), " ", make("b", { textContent: found.text })), make("p", { className: "soft", textContent: `${found.fix} · ${found.code}` }));
    const acts = make("p", { className: "acts" });
    if (found.usable) acts.append(useButton(found));
    if (linked && found.section) {
      const link = make("a", { href: `#${found.section}`, textContent: [found.section, found.id, found.field].filter(Boolean).join(" ") });
      link.addEventListener("click", (event) => { event.preventDefault(); open(found.section, found.id, found.field); });
      acts.append(link);
    }
    if (acts.childElementCount) li.append(acts);
    return li;
  };
  const told = (r, c) => {
    if (!shown || listed()) return;
    const one = field(r, c), row = section === "live" ? null : shown.single ? shown.fields[r] && { id: "" } : shown.rows[r];
    const found = row ? shown.findings.filter((f) => spotsOf(f).some(([of, id, name]) => of === shown.section && id === row.id && (!shown.single || name === one.name))) : [];
    if (one) found.sort((a, b) => (b.field === one.name) - (a.field === one.name));
    const words = make("div", {});
    if (section === "live") words.append(make("h3", { textContent: c ? `${live[c - 1]} in ${shown.rows[r]?.id ?? ""}` : "Who is live" }), make("p", { className: "soft", textContent: "Click a cell or press space: live or not." }));
    else if (one) words.append(make("h3", { textContent: one.title }), make("p", { textContent: one.help }), make("p", { className: "soft", textContent: one.choices.length ? `One of ${one.choices.join(", ")}.` : `As in ${one.example}` }));
    else words.append(make("h3", { textContent: row ? `${shown.word} ${row.id}` : `A new ${shown.word}` }), make("p", { className: "soft", textContent: row ? "Change the name here, and it changes everywhere." : "Type its name, or type into a column: numbers count on." }));
    by("about").replaceChildren(words, make("ul", {}, ...found.map((f) => item(f, false))));
    for (const [id, on] of [["up", row && r > 0], ["down", row && r < shown.rows.length - 1], ["drop", row]]) by(id).disabled = !on || shown.single || section === "live";
  };

  const spotsOf = (found) => [[found.section, found.id, found.field], ...found.also];
  const marksOf = () => {
    const marks = new Map();
    for (const found of shown.findings) for (const [nth, [of, id, name]] of spotsOf(found).entries()) if (of === shown.section) {
      const key = shown.single ? `${name}\nvalue` : `${id}\n${columnsOf().some((one) => one.name === name) ? name : ""}`;
      marks.set(key, [...(marks.get(key) ?? []), nth ? "also" : found.severity]);
    }
    return marks;
  };
  const draw = () => {
    if (section === "findings") { list(); return; }
    if (section === "card") { card.draw(); return; }
    if (section === "live") {
      live = [...new Set([...(shown.known.roles ?? []), ...Object.values(shown.live).flat()])];
      const isLive = (row, role) => (shown.live[row.id] ?? []).includes(role);
      grid.draw({ columns: [{ key: "", title: "Scene" }, ...live.map((role) => ({ key: role, title: role }))], marks: new Map(), toggles: true,
        rows: shown.rows.map((row) => ({ key: row.id, head: row.cells.name ? `${row.id} ${row.cells.name}` : row.id, cells: Object.fromEntries(live.map((role) => [role, isLive(row, role) ? "●" : ""])) })) });
      return;
    }
    if (shown.single) {
      grid.draw({ columns: [{ key: "", title: "Field" }, { key: "value", title: "Value" }], marks: marksOf(), rows: shown.fields.map((one) => ({ key: one.name, head: one.title, cells: { value: shown.rows[0]?.cells[one.name] ?? "" } })) });
      return;
    }
    const columns = columnsOf();
    grid.draw({ columns: [{ key: "", title: shown.word }, ...columns.map((one) => ({ key: one.name, title: one.title }))], marks: marksOf(),
      rows: [...shown.rows.map((row) => ({ key: row.id, cells: row.cells })), { key: "", head: "", fresh: true, cells: {} }] });
  };
  const list = () => {
    const found = shown.findings, all = make("button", { type: "button", textContent: "Make every fix that needs no decision" });
    all.addEventListener("click", () => send("mend"));
    by("listed").replaceChildren(...(found.some((one) => one.usable && !one.decides) ? [make("p", { className: "buttons" }, all)] : []),
      found.length ? make("ol", {}, ...found.map((one) => item(one, true))) : make("p", { textContent: "No problems found." }));
  };
  const counts = () => {
    const { state, findings } = shown;
    for (const link of document.querySelectorAll("#sections a")) {
      const name = link.dataset.section, own = name === "findings" ? findings : findings.filter((one) => one.section === name), n = link.querySelector(".n");
      const isHere = name === (section === "card" ? "channels" : section);
      if (!isHere) link.removeAttribute("aria-current");
      else if (!link.hasAttribute("aria-current")) { link.setAttribute("aria-current", "page"); link.scrollIntoView({ block: "nearest", inline: "nearest" }); }
      if (!n) continue;
      const errors = own.filter((one) => one.severity === "error").length;
      n.textContent = name === "findings" ? own.length || "" : link.dataset.single ? "" : state.counts[name] || "";
      link.dataset.kind = errors ? "error" : own.length ? "warning" : "";
      link.title = own.length ? `${own.length} finding${own.length > 1 ? "s" : ""} here` : "";
    }
    by("undo").disabled = !state.undo;
    by("redo").disabled = !state.redo;
    by("undo").title = state.undo ? `Undo: ${state.undo}` : "";
    by("redo").title = state.redo ? `Redo: ${state.redo}` : "";
    by("kept").textContent = state.saved && state.edited ? "changed here, and saved elsewhere" : state.edited ? "changed, not saved" : "saved";
    by("save").disabled = !state.edited;
  };
  const take = (answer) => {
    if (answer.fields) shown = answer;
    if (!shown) return;
    by("sheet-title").textContent = section === "live" ? "Who is live" : section === "card" ? `Channel ${card.channel()}` : section[0].toUpperCase() + section.slice(1);
    by("sheet-help").textContent = section === "live" ? "A row is a scene, a column is a role." : section === "findings" ? "What is wrong, and what would fix it." : section === "card" ? "Everything about this channel, the same as in the tables." : shown.help;
    by("scroll").hidden = by("about").hidden = listed();
    by("listed").hidden = !listed();
    by("listed").className = "scroll";
    by("row-tools").hidden = shown.single || section === "live" || listed();
    by("to-card").hidden = section !== "channels";
    by("to-recast").hidden = !["people", "roles", "channels"].includes(section);
    const rest = shown.fields.filter((one) => !columnsOf().includes(one));
    by("more").hidden = shown.single || !rest.length;
    by("more").replaceChildren(make("option", { textContent: "More columns", value: "" }), ...rest.map((one) => make("option", { textContent: one.title, value: one.name })));
    by("grid").classList.toggle("single", shown.single);
    counts();
    draw();
  };
  const open = async (name, id, column) => {
    grid.finish();
    if (name === "card") { card.choose(id); id = column = ""; }
    else if (![...document.querySelectorAll("#sections a")].some((link) => link.dataset.section === name)) name = "channels";
    if (name !== section || name === "card") {
      section = name;
      history.replaceState(null, "", `#${name === "card" ? `card/${encodeURIComponent(card.channel())}` : name}`);
      const answer = await ask(`table/${of()}`);
      if (!answer) return;
      if (answer.wrong) { say(answer.wrong); return; }
      take(answer);
      if (!listed()) grid.go(0, shown.single ? 1 : 0);
    }
    if (!id && !column) return;
    if (!shown.single && column && !columnsOf().some((one) => one.name === column)) { (wanted[section] ??= new Set()).add(column); take(shown); }
    if (shown.single) grid.go(Math.max(0, shown.fields.findIndex((one) => one.name === column)), 1);
    else grid.go(Math.max(0, named().indexOf(id)), columnsOf().findIndex((one) => one.name === column) + 1);
  };

  const shift = (r, step) => {
    const ids = named(), to = r + step;
    if (shown.single || !ids[r] || to < 0 || to >= ids.length) return;
    send("move", [["record", ids[r]], ["before", step < 0 ? ids[to] : ids[to + 1] ?? ""]]);
  };
  const remove = (r) => { const id = named()[r]; if (!shown.single && id !== undefined) send("make", [["edit", `${path(id, "")}=`]]); };
  const grid = makeGrid(by("grid"), { change, choose, attempt, told, shift, remove, may: (r, c) => (section === "live" || shown.single ? c > 0 : true) });

  const preview = async (found) => {
    const fix = await acts.ask(found);
    if (fix) send("make", [fix]);
  };
  const settle = async () => {
    const answer = await ask("clash");
    if (!answer) return;
    if (answer.wrong) { say(answer.wrong); return; }
    const lines = (title, all) => (all.length ? [make("h3", { textContent: title }), make("ul", { className: "changed", tabIndex: 0, ariaLabel: title }, ...all.slice(0, 12).map((one) => make("li", { textContent: one, dir: "auto" })), ...(all.length > 12 ? [make("li", { className: "soft", textContent: `and ${all.length - 12} more` })] : []))] : []);
    by("clash-body").replaceChildren(...lines("Changed in the file", answer.theirs), ...lines("Changed on this page", answer.ours), ...answer.clashes.map((one, n) => {
      const side = (value, text, checked) => make("label", { className: "choice" }, make("input", { type: "radio", name: `clash-${n}`, value, checked }), ` ${text || "gone"}`);
      const set = make("fieldset", {}, make("legend", { textContent: `${one.what}${one.was ? `, was ${one.was}` : ""}` }), side(one.key, `here: ${one.ours || "gone"}`, true), side("", `in the file: ${one.theirs || "gone"}`, false));
      return set;
    }));
    if ((await dialog("clash-dialog")) === "merge") send("merge", [...by("clash-body").querySelectorAll("input:checked")].filter((one) => one.value).map((one) => ["kept", one.value]));
  };
  const card = makeCard({ ask, send, open: (...to) => open(...to), item: (found) => item(found, true), quote });
  const recast = async () => {
    const [r] = grid.where(), row = shown.rows[r], people = shown.known.people ?? named();
    by("recast-old").value = section === "people" ? row?.id ?? "" : row?.cells.by ?? "";
    by("recast-new").value = "";
    by("recast-lines").replaceChildren();
    by("recast-names").replaceChildren(...people.map((value) => make("option", { value })));
    if ((await dialog("recast-dialog")) === "recast") send("recast", casting());
  };
  const casting = () => [["old", by("recast-old").value], ["new", by("recast-new").value], ...(by("recast-stays").checked ? [["stays", "yes"]] : [])];
  let cast = 0;
  by("recast-dialog").addEventListener("input", async () => {
    const number = ++cast, answer = by("recast-old").value && by("recast-new").value ? await ask("recast/try", casting()) : { lines: [] };
    if (number !== cast || !answer) return;
    by("recast-lines").replaceChildren(...(answer.lines ?? [answer.wrong]).map((line) => make("li", { textContent: line, dir: "auto" })));
    by("recast-do").disabled = !answer.lines?.length;
  });
  by("to-recast").addEventListener("click", () => { by("recast-do").disabled = true; recast(); });
  by("to-card").addEventListener("click", () => { const id = named()[grid.where()[0]]; if (id) open("card", id); });
  const download = () => { location.assign(`${here}edit/file`); setTimeout(() => open_again(), 500); };
  const open_again = async () => { const answer = await ask(`table/${of()}`); if (answer) take(answer); };
  const save = async (quick) => {
    grid.finish();
    await work;
    const isDropped = !document.querySelector("input[name=way]");
    if (!quick && (await dialog("save-dialog")) !== "save") return;
    if (isDropped) { download(); return; }
    const way = quick ? "own" : document.querySelector("input[name=way]:checked").value;
    const answer = await send("save", [["way", way], ["name", by("new-name").value], ["revision", by("revision").value], ["reason", by("reason").value]]);
    if (answer && !answer.wrong && !answer.clash && way !== "own") location.reload();
  };
  for (const [id, way] of [["revision", "revision"], ["reason", "revision"], ["new-name", "new"]]) {
    by(id)?.addEventListener("input", () => { document.querySelector(`input[name=way][value=${way}]`).checked = true; });
  }
  by("save").addEventListener("click", () => save(false));
  by("undo").addEventListener("click", () => send("undo"));
  by("redo").addEventListener("click", () => send("redo"));
  by("add").addEventListener("click", () => grid.go(shown.rows.length, 0));
  by("up").addEventListener("click", () => shift(grid.where()[0], -1));
  by("down").addEventListener("click", () => shift(grid.where()[0], 1));
  by("drop").addEventListener("click", () => remove(grid.where()[0]));
  by("more").addEventListener("change", () => {
    const name = by("more").value;
    (wanted[section] ??= new Set()).add(name);
    take(shown);
    grid.go(grid.where()[0], columnsOf().findIndex((one) => one.name === name) + 1);
  });
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || document.querySelector("dialog[open]")) return;
    const key = event.key.toLowerCase(), typing = grid.typing() || event.target.matches("input, select");
    if (key === "s") save(true);
    else if (key === "z" && !typing) send(event.shiftKey ? "redo" : "undo");
    else if (key === "y" && !typing) send("redo");
    else return;
    event.preventDefault();
  });
  by("sections").addEventListener("click", (event) => {
    const link = event.target.closest("a[data-section]");
    if (link) { event.preventDefault(); open(link.dataset.section); }
  });
  addEventListener("focus", async () => { if (section && !grid.typing() && !waits) open_again(); });
  const [name, id, column] = location.hash.slice(1).split("/").map(decodeURIComponent);
  open(name === "clash" ? "channels" : name || "channels", id, column).then(() => { if (name === "clash") settle(); });
})();
