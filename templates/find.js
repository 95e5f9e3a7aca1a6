(() => {
  "use strict";
  const box = document.getElementById("find"), verdict = document.getElementById("verdict");
  const cards = [...document.querySelectorAll("[data-card]")];
  const parts = [...document.querySelectorAll("[data-part]")];
  const plain = { "ł": "l", "ø": "o", "đ": "d", "ð": "d", "ß": "ss", "æ": "ae", "œ": "oe", "þ": "th", "ı": "i" };
  const fold = (text) => text.replace(/[\u2018\u2019\u02bc\u00b4`]/g, "'").normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/[łøđðßæœþı]/g, (sign) => plain[sign]);
  const bare = (word) => word.replace(/^0+(?=\d)/, "");
  const texts = new Map();
  for (const card of cards) {
    const text = fold(card.textContent), also = fold(card.dataset.also || "");
    texts.set(card, { text, words: new Set(`${text} ${also}`.split(/[^\p{L}\p{N}.]+/u).map(bare)) });
  }
  const matches = (card, words) => words.every((word) =>
    /^\d{1,3}$/.test(word) ? texts.get(card).words.has(bare(word)) : texts.get(card).text.includes(word));

  const show = (kept) => {
    for (const card of cards) card.hidden = !kept.has(card);
    for (const part of parts) {
      const own = [...part.querySelectorAll("[data-card]")], left = own.filter((card) => kept.has(card)).length;
      part.hidden = !left;
      const count = part.querySelector(".bar span");
      count.dataset.all ??= count.textContent;
      count.textContent = left === own.length ? count.dataset.all : `${left} of ${own.length}`;
    }
    document.querySelectorAll("[data-rest]").forEach((part) => { part.hidden = kept.size !== cards.length || box.value.trim() !== ""; });
  };

  const main = document.querySelector("main"), order = [...main.children].filter((part) => part.id !== "search");
  const names = (card) => [card.querySelector(".key")?.textContent, ...(card.dataset.numbers || "").split(" "), ...[...card.querySelectorAll("[data-pack]")].map((one) => one.textContent)];
  const rank = (word) => {
    const exact = word ? cards.filter((card) => !card.hidden && names(card).some((name) => name && bare(fold(name.trim())) === word)) : [];
    for (const list of main.querySelectorAll("ul.cards")) {
      list.append(...[...list.children].sort((one, other) => places.get(one) - places.get(other)));
      list.prepend(...exact.filter((card) => card.parentElement === list));
    }
    main.append(...order);
    if (box.value.trim()) main.append(...order.filter((part) => part.id === "papers" || part.querySelector(":scope > #findings")));
    const first = exact[0]?.closest("[data-part]");
    if (first) document.getElementById("search").after(first);
  };
  const places = new Map(cards.map((card, place) => [card, place]));

  const readCode = (typed) => {
    const code = typed.trim().toUpperCase().replace(/\s+/g, "");
    if (!/^[^:]+:[^:]*:[^:]*:[0-9A-Z]{4}$/.test(code)) return false;
    const number = code.split(":")[0];
    const own = cards.filter((card) => (card.dataset.codes || "").split(" ").includes(code));
    const same = cards.filter((card) => (card.dataset.numbers || "").split(" ").map(bare).includes(bare(number)));
    const found = own.length ? own : same;
    show(new Set(found));
    if (own.length) verdict.textContent = `Label ${number} is up to date.`;
    else if (!same.length) verdict.textContent = `No pack of this show has the number ${number}.`;
    else if (!same[0].dataset.codes) verdict.textContent = `Number ${number}. This page was made without labels, so it does not know which label is current.`;
    else verdict.textContent = `Label ${number} is out of date: take it off. The current one ends in ${same[0].dataset.codes.split(" ")[0].split(":").slice(2).join(" ")}.`;
    return true;
  };

  const held = cards.flatMap((card) => JSON.parse(card.dataset.held || "[]").map(([part, code]) => ({ card, part, code })));
  const titleOf = (card) => card.querySelector("h3").textContent;
  const readPage = (typed) => {
    const code = typed.trim().toUpperCase(), found = held.filter((one) => one.code === code);
    if (!found.length) return false;
    show(new Set(found.map((one) => one.card)));
    verdict.textContent = `${code} is up to date: ${found.map((one) => `${titleOf(one.card)}, ${one.part}`).join("; ")}.`;
    return true;
  };
  const missed = (typed) => {
    if (!/^[234679ACFHJKLMNRTUVWXY]{4}$/i.test(typed.trim())) return "Nothing found. Try part of a name, a number, or the text of a label's code.";
    const code = typed.trim().toUpperCase();
    if (box.dataset.whole === undefined) return `No page in this folder has the code ${code}. Look it up where the whole show is printed.`;
    return `${code} is not of this revision: take it down. A change list and a page for tonight are not listed here.`;
  };

  const look = () => {
    const typed = box.value;
    rank("");
    if (!typed.trim()) { show(new Set(cards)); verdict.textContent = ""; return; }
    if (readCode(typed) || readPage(typed)) return;
    const words = fold(typed).replace(/(\d),(?=\d)/g, "$1.").split(/\s+/).filter(Boolean);
    const kept = new Set(cards.filter((card) => matches(card, words)));
    show(kept);
    rank(words.length === 1 ? bare(words[0]) : "");
    verdict.textContent = kept.size ? `${kept.size} found` : missed(typed);
  };
  document.getElementById("search").hidden = false;
  box.addEventListener("input", look);
  addEventListener("keydown", (event) => {
    if (event.key === "Escape" && box.value) { box.value = ""; look(); box.focus(); }
  });
})();
