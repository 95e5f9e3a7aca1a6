/* A table to type in, as in a spreadsheet. It knows cells, not shows: what is typed is handed to `change`.
   A column has key and title, a row key and cells; column 0 names the row. `marks` says what is wrong with a cell. */
const makeGrid = (table, acts) => {
  "use strict";
  const { change, choose, attempt, told, may, remove, shift } = acts;
  const popup = document.getElementById("popup"), hint = document.getElementById("hint"), list = document.getElementById("choices");
  const TRY_MS = 150, PAGE = 15;
  let columns = [], rows = [], marks = new Map(), toggles = false;
  let at = [0, 0], from = [0, 0], input = null, leaves = false, picked = -1, asked = 0, waiting = 0, drawn = "";

  const cell = (r, c) => table.tBodies[0]?.rows[r]?.cells[c];
  const value = (r, c) => (c ? rows[r]?.cells[columns[c].key] : rows[r]?.head ?? rows[r]?.key) ?? "";
  const range = () => [0, 1].map((axis) => [Math.min(at[axis], from[axis]), Math.max(at[axis], from[axis])]);

  const show = () => {
    for (const one of table.querySelectorAll(".ranged")) one.classList.remove("ranged");
    table.querySelector("[tabindex='0']")?.setAttribute("tabindex", "-1");
    const [[top, bottom], [left, right]] = range();
    if (top !== bottom || left !== right) {
      for (let r = top; r <= bottom; r++) for (let c = left; c <= right; c++) cell(r, c)?.classList.add("ranged");
    }
    const td = cell(...at);
    if (td) { td.tabIndex = 0; td.classList.add("ranged"); }
    told(...at);
    return td;
  };
  const go = (r, c, extend = false) => {
    at = [Math.max(0, Math.min(rows.length - 1, r)), Math.max(0, Math.min(columns.length - 1, c))];
    if (!extend) from = [...at];
    leaves = false;
    const td = show();
    td?.focus({ preventScroll: true });
    td?.scrollIntoView({ block: "nearest", inline: "nearest" });
  };
  const step = (by) => {
    const next = at[1] + by, last = columns.length - 1;
    if (next >= 0 && next <= last) return go(at[0], next), true;
    const row = at[0] + Math.sign(by);
    if (row < 0 || row >= rows.length) return false;
    return go(row, by > 0 ? 0 : last), true;
  };

  const fill = (td, r, c) => {
    const text = rows[r].fresh && !c ? "+" : value(r, c), found = marks.get(`${rows[r].key}\n${c ? columns[c].key : ""}`) ?? [];
    const kind = ["error", "warning", "also"].find((one) => found.includes(one)) ?? "";
    if (td.dataset.kind !== kind) { td.dataset.kind = kind; td.toggleAttribute("aria-invalid", false); if (kind && kind !== "also") td.setAttribute("aria-invalid", "true"); }
    if (toggles && c) { td.setAttribute("aria-selected", text ? "true" : "false"); td.setAttribute("aria-label", `${columns[c].title}: ${text ? "live" : "not live"}`); }
    const span = td.firstElementChild;
    if (span.textContent !== text) span.textContent = text;
  };
  const build = () => {
    const head = document.createElement("thead"), top = head.insertRow(), body = document.createElement("tbody");
    top.setAttribute("role", "row");
    for (const column of columns) {
      const th = document.createElement("th");
      th.scope = "col";
      th.setAttribute("role", "columnheader");
      th.textContent = column.title;
      top.append(th);
    }
    rows.forEach((row, r) => {
      const tr = body.insertRow();
      tr.setAttribute("role", "row");
      if (row.fresh) tr.className = "fresh";
      columns.forEach((column, c) => {
        const td = document.createElement(c ? "td" : "th"), span = document.createElement("span");
        td.setAttribute("role", c ? "gridcell" : "rowheader");
        td.tabIndex = -1;
        span.dir = "auto";
        td.append(span);
        tr.append(td);
      });
    });
    table.replaceChildren(head, body);
  };
  const draw = (next) => {
    const [row, column] = [rows[at[0]], columns[at[1]]], had = table.contains(document.activeElement) || input;
    ({ columns, rows, marks, toggles = false } = next);
    const form = JSON.stringify([columns.map((one) => one.title), rows.map((one) => [one.key, one.fresh])]);
    const held = input && { text: input.value, start: input.selectionStart };
    if (form !== drawn) {
      if (input) shut();
      const r = rows.findIndex((one) => row && one.key === row.key && !one.fresh === !row.fresh);
      const c = columns.findIndex((one) => column && one.key === column.key);
      at = [r >= 0 ? r : Math.min(at[0], rows.length - 1), c >= 0 ? c : Math.min(at[1], columns.length - 1)];
      from = [...at];
      build();
      drawn = form;
    }
    rows.forEach((_, r) => columns.forEach((__, c) => fill(cell(r, c), r, c)));
    const td = show();
    if (had && !table.contains(document.activeElement)) td?.focus({ preventScroll: true });
    if (held && !input) { edit(held.text); input?.setSelectionRange(held.start, held.start); }
  };

  const put = (changes) => { const real = changes.filter(([r, c, text]) => may(r, c) && text !== value(r, c)); if (real.length) change(real); };
  const clear = () => {
    const [[top, bottom], [left, right]] = range(), gone = [];
    for (let r = top; r <= bottom; r++) for (let c = Math.max(1, left); c <= right; c++) if (rows[r] && !rows[r].fresh) gone.push([r, c, ""]);
    put(gone);
  };
  const toggle = () => put([[at[0], at[1], value(...at) ? "" : "on"]]);

  const shut = () => { const td = input?.parentElement; td?.classList.remove("typing"); if (td) td.tabIndex = 0; const old = input; input = null; old?.remove(); popup.hidden = true; clearTimeout(waiting); };
  const commit = (go_on) => {
    if (picked >= 0) take(list.children[picked].dataset.text);
    const text = input.value.trim(), [r, c] = at;
    shut();
    cell(r, c)?.focus({ preventScroll: true });
    put([[r, c, text]]);
    go_on?.();
  };
  const take = (text) => { input.value = text; picked = -1; };
  const place = () => {
    const box = input.parentElement.getBoundingClientRect(), below = innerHeight - box.bottom;
    popup.hidden = !hint.textContent && !list.childElementCount;
    popup.style.left = `${Math.max(8, Math.min(box.left, innerWidth - popup.offsetWidth - 8))}px`;
    popup.style.top = below > popup.offsetHeight + 8 || box.top < popup.offsetHeight ? `${box.bottom + 2}px` : `${box.top - popup.offsetHeight - 2}px`;
    input.setAttribute("aria-expanded", String(!popup.hidden && list.childElementCount > 0));
  };
  const offer = () => {
    picked = -1;
    list.replaceChildren(...choose(at[0], at[1], input.value).map(({ text, shown }, n) => {
      const li = document.createElement("li");
      li.id = `choice-${n}`;
      li.setAttribute("role", "option");
      li.dir = "auto";
      li.textContent = shown;
      li.dataset.text = text;
      return li;
    }));
    place();
  };
  const pick = (by) => {
    const size = list.childElementCount;
    picked = (picked + by + size + (picked < 0 && by < 0 ? 1 : 0)) % size;
    [...list.children].forEach((li, n) => li.setAttribute("aria-selected", String(n === picked)));
    input.setAttribute("aria-activedescendant", `choice-${picked}`);
    list.children[picked].scrollIntoView({ block: "nearest" });
  };
  const look = () => {
    clearTimeout(waiting);
    const number = ++asked, [r, c] = at;
    waiting = setTimeout(async () => {
      const said = input && input.value.trim() !== value(r, c) ? await attempt(r, c, input.value.trim()) : "";
      if (number !== asked || !input) return;
      hint.textContent = said;
      place();
    }, TRY_MS);
  };
  const edit = (text) => {
    if (!may(...at)) return;
    if (toggles) { toggle(); return; }
    const td = cell(...at);
    input = document.createElement("input");
    input.type = "text";
    input.autocomplete = "off";
    input.spellcheck = false;
    input.dir = "auto";
    for (const [name, set] of Object.entries({ role: "combobox", "aria-expanded": "false", "aria-controls": "choices", "aria-autocomplete": "list", "aria-describedby": "hint" })) input.setAttribute(name, set);
    input.setAttribute("aria-label", `${columns[at[1]].title}${rows[at[0]].fresh ? ", new row" : `, ${value(at[0], 0)}`}`);
    input.value = text ?? value(...at);
    hint.textContent = "";
    td.classList.add("typing");
    td.tabIndex = -1;
    td.append(input);
    input.focus({ preventScroll: true });
    if (text === undefined) input.select();
    input.addEventListener("input", () => { offer(); look(); });
    input.addEventListener("blur", () => { if (input) commit(); });
    offer();
  };

  const paste = (text) => {
    const block = readBlock(text), [[top], [left]] = range(), put_in = [];
    const most = rows.at(-1)?.fresh ? Infinity : rows.length - top;
    block.slice(0, most).forEach((line, y) => line.forEach((one, x) => { if (left + x < columns.length) put_in.push([top + y, left + x, one]); }));
    if (put_in.length) change(put_in.filter(([r, c, one]) => may(r, c) && one !== value(r, c)));
  };
  const copy = () => {
    const [[top, bottom], [left, right]] = range(), lines = [];
    for (let r = top; r <= bottom; r++) lines.push(Array.from({ length: right - left + 1 }, (_, x) => quoteCell(value(r, left + x))).join("\t"));
    return lines.join("\n");
  };

  const typing = (event) => {
    const back = { Enter: () => go(at[0] + (event.shiftKey ? -1 : 1), at[1]), Tab: () => step(event.shiftKey ? -1 : 1) };
    if (event.isComposing) return;
    if (event.key === "Escape") { shut(); cell(...at)?.focus(); } else if (back[event.key]) commit(back[event.key]);
    else if ((event.key === "ArrowDown" || event.key === "ArrowUp")) {
      const by = event.key === "ArrowDown" ? 1 : -1;
      if (list.childElementCount) pick(by); else commit(() => go(at[0] + by, at[1]));
    } else return;
    event.preventDefault();
  };
  const MOVES = {
    ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1], PageUp: [-PAGE, 0], PageDown: [PAGE, 0],
  };
  const walking = (event) => {
    const wide = event.ctrlKey || event.metaKey, key = event.key;
    if (event.altKey && (key === "ArrowUp" || key === "ArrowDown")) shift?.(at[0], key === "ArrowUp" ? -1 : 1);
    else if (event.altKey) return;
    else if (MOVES[key]) { const [down, right] = MOVES[key], far = wide ? 1e6 : 1; go(at[0] + down * far, at[1] + right * far, event.shiftKey); }
    else if (key === "Home") go(wide ? 0 : at[0], 0, event.shiftKey);
    else if (key === "End") go(wide ? rows.length - 1 : at[0], columns.length - 1, event.shiftKey);
    else if (key === "Tab") { if (leaves || !step(event.shiftKey ? -1 : 1)) return; }
    else if (key === "Escape") { from = [...at]; show(); leaves = true; }
    else if (wide && key === "a") { from = [0, 0]; at = [rows.length - 1, columns.length - 1]; show(); }
    else if (wide && (key === "Delete" || key === "Backspace")) remove?.(at[0]);
    else if (wide) return;
    else if (key === "Enter" || key === "F2") edit();
    else if (key === "Delete" || key === "Backspace") clear();
    else if (toggles && key === " ") toggle();
    else if (key.length === 1 || key === "Process" || key === "Dead") { if (!toggles) edit(""); return; }
    else return;
    event.preventDefault();
  };
  table.addEventListener("keydown", (event) => (input ? typing : walking)(event));
  const spot = (event) => { const td = event.target.closest("td, tbody th"); return td && [td.parentElement.sectionRowIndex, td.cellIndex]; };
  let down = null;
  table.addEventListener("pointerdown", (event) => {
    const to = spot(event);
    if (!to || event.target === input || event.button) return;
    if (input) commit();
    down = { again: to[0] === at[0] && to[1] === at[1] && table.contains(document.activeElement), touch: event.pointerType === "touch" };
    if (down.touch) return;
    event.preventDefault();
    go(...to, event.shiftKey);
  });
  table.addEventListener("pointerover", (event) => {
    const to = spot(event);
    if (to && down && !down.touch && event.buttons & 1 && !input && (to[0] !== at[0] || to[1] !== at[1])) { down.again = false; go(...to, true); }
  });
  table.addEventListener("click", (event) => {
    const to = spot(event);
    if (!to || event.target === input || !down) return;
    if (down.touch) go(...to);
    if (toggles && to[1]) toggle(); else if (down.again) edit();
    down = null;
  });
  addEventListener("pointerup", () => setTimeout(() => { down = null; }));
  list.addEventListener("pointerdown", (event) => {
    const li = event.target.closest("li");
    event.preventDefault();
    if (li && input) { take(li.dataset.text); commit(); }
  });
  table.addEventListener("paste", (event) => { if (!input) { event.preventDefault(); paste(event.clipboardData.getData("text/plain")); } });
  for (const name of ["copy", "cut"]) {
    table.addEventListener(name, (event) => {
      if (input) return;
      event.preventDefault();
      event.clipboardData.setData("text/plain", copy());
      if (name === "cut") clear();
    });
  }
  document.getElementById("scroll").addEventListener("scroll", () => { if (input) place(); });

  return { draw, go, where: () => [...at], typing: () => Boolean(input), finish: () => { if (input) commit(); } };
};

/* Cells as spreadsheets put them on the clipboard: tabs between, a cell with a break or a tab in double quotes. */
const readBlock = (text) => {
  const block = [[""]];
  let quoted = false;
  const body = text.replace(/\r\n?/g, "\n").replace(/\n$/, "");
  for (let n = 0; n < body.length; n++) {
    const sign = body[n], line = block.at(-1);
    if (quoted && sign === '"' && body[n + 1] === '"') { line[line.length - 1] += sign; n++; }
    else if (sign === '"' && (quoted || line.at(-1) === "")) quoted = !quoted;
    else if (sign === "\t" && !quoted) line.push("");
    else if (sign === "\n" && !quoted) block.push([""]);
    else line[line.length - 1] += sign;
  }
  return block.map((line) => line.map((one) => one.trim()));
};
const quoteCell = (text) => (/[\t\n"]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text);
