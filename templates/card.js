/* A channel as a card: the records that belong to it, each with its fields to type in. */
const makeCard = (page) => {
  "use strict";
  const { by, here } = paperwork, { make } = acts;
  let channel = "";

  const line = (group, field) => {
    const id = `card-${group.section}-${group.id}-${field.name}`, input = make("input", { type: "text", id, value: field.value, autocomplete: "off", dir: "auto", title: field.help });
    input.addEventListener("change", async () => {
      await page.send("make", [["edit", `${page.quote(group.section)}/${page.quote(group.id)}/${page.quote(field.name)}=${input.value.trim()}`]]);
    });
    return make("div", { className: "line" }, make("label", { htmlFor: id, textContent: field.title }), input);
  };
  const block = (group) => {
    const link = make("a", { href: `#${group.section}`, textContent: group.id });
    link.addEventListener("click", (event) => { event.preventDefault(); page.open(group.section, group.id); });
    return make("fieldset", {}, make("legend", {}, make("span", { className: "soft", textContent: `${group.word} ` }), link), ...group.fields.map((field) => line(group, field)));
  };
  const draw = async () => {
    const answer = await page.ask(`card/${encodeURIComponent(channel)}`);
    if (!answer || answer.wrong) return;
    const focus = document.activeElement?.id, at = answer.ids.indexOf(channel);
    const turn = (text, to) => {
      const button = make("button", { type: "button", className: "plain small", textContent: text, disabled: !to });
      button.addEventListener("click", () => page.open("card", to));
      return button;
    };
    const facts = [answer.slot && `In the rack at ${answer.slot}.`, answer.live.length && `Live in ${answer.live.join(", ")}.`].filter(Boolean).join(" ");
    by("listed").replaceChildren(
      make("p", { className: "buttons" }, turn("Channel before", answer.ids[at - 1]), turn("Channel after", answer.ids[at + 1]), ...(answer.label ? [make("a", { className: "button plain small", href: `${here}part/pack-labels.pdf?${new URLSearchParams({ channels: answer.label, copies: 1 })}`, target: "_blank", textContent: "Its label" })] : [])),
      ...(facts ? [make("p", { textContent: facts, dir: "auto" })] : []),
      ...(answer.findings.length ? [make("ul", {}, ...answer.findings.map(page.item))] : []),
      make("div", { className: "blocks" }, ...answer.groups.map(block)),
    );
    document.getElementById(focus)?.focus();
  };
  return { draw, channel: () => channel, choose: (id) => { channel = id; } };
};
