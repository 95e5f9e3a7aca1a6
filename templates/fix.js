/* What is done to a show from any page: one act sent, and a fix that is looked at before it is used. */
const acts = (() => {
  "use strict";
  const { here, by, say, GONE } = paperwork;
  const make = (tag, set = {}, ...inside) => {
    const one = Object.assign(document.createElement(tag), set);
    one.append(...inside);
    return one;
  };
  const send = async (where, fields) => {
    try {
      return await (await fetch(here + where, { method: "POST", body: new URLSearchParams(fields) })).json();
    } catch {
      say(GONE);
      return null;
    }
  };
  const dialog = (id) => new Promise((resolve) => {
    const box = by(id);
    box.returnValue = "";
    box.addEventListener("close", () => resolve(box.returnValue), { once: true });
    box.showModal();
  });
  const tag = (severity) => make("span", { className: `tag ${severity}`, textContent: severity });
  /* Shows the line before and after, and what else would come of it; true once somebody wants it. */
  const ask = async (found) => {
    const fix = ["fix", `${found.code}|${found.text}`], answer = await send("edit/try", [fix]);
    if (!answer) return null;
    if (answer.wrong) { say(answer.wrong); return null; }
    by("fix-text").textContent = found.text;
    by("fix-lines").replaceChildren(...answer.lines.map(([sign, line]) => make(sign === "-" ? "del" : sign === "+" ? "ins" : "span", { textContent: `${sign || " "} ${line}\n` })));
    by("fix-new").replaceChildren(...answer.findings.filter((one) => one.new).slice(0, 4).map((one) => make("li", {}, tag(one.severity), ` then: ${one.text}`)));
    return (await dialog("fix-dialog")) === "use" ? fix : null;
  };
  const use = async (found) => {
    const fix = await ask(found), answer = fix && await send("edit/make", [fix]);
    if (answer?.wrong) say(answer.wrong);
    return Boolean(answer && !answer.wrong);
  };
  return { make, send, dialog, tag, ask, use };
})();
