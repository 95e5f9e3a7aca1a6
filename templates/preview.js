/* A page large, over the papers: turned and zoomed by keys. Without it, or with another button of the mouse, its link leads to the PDF. */
(() => {
  "use strict";
  const dialog = document.getElementById("preview");
  if (!dialog) return;
  const part = (id) => document.getElementById(`preview-${id}`);
  const STEP = 1.25, MOST = 8;
  const links = [...document.querySelectorAll(".pages a")];
  let at = 0, zoom = 1;
  const fit = () => {
    const picture = part("page").firstElementChild, room = part("page");
    const scale = Math.min(room.clientWidth / picture.dataset.wide, room.clientHeight / picture.dataset.high);
    picture.style.width = `${Math.floor(picture.dataset.wide * scale * zoom)}px`;
    picture.style.height = `${Math.floor(picture.dataset.high * scale * zoom)}px`;
  };
  const show = (place) => {
    at = Math.max(0, Math.min(links.length - 1, place));
    const own = links[at].querySelector("img"), picture = new Image();
    picture.src = own.src;
    picture.alt = own.alt;
    Object.assign(picture.dataset, { wide: own.getAttribute("width"), high: own.getAttribute("height") });
    part("page").replaceChildren(picture);
    part("title").textContent = own.alt;
    part("pdf").href = links[at].href;
    dialog.querySelector("[data-turn='-1']").disabled = at === 0;
    dialog.querySelector("[data-turn='1']").disabled = at === links.length - 1;
    fit();
    part("page").scrollTo(0, 0);
  };
  const turn = (way) => show(at + way);
  const scale = (way) => { zoom = way ? Math.max(1, Math.min(MOST, zoom * STEP ** way)) : 1; fit(); };
  links.forEach((link, place) => link.addEventListener("click", (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    zoom = 1;
    dialog.showModal();
    show(place);
    part("page").focus();
  }));
  dialog.addEventListener("keydown", (event) => {
    const ways = { ArrowLeft: () => turn(-1), ArrowRight: () => turn(1), PageUp: () => turn(-1), PageDown: () => turn(1), "+": () => scale(1), "=": () => scale(1), "-": () => scale(-1), 0: () => scale(0) };
    const sideways = zoom > 1 && event.key.startsWith("Arrow");
    if (event.ctrlKey || event.metaKey || event.altKey || sideways || !ways[event.key]) return;
    event.preventDefault();
    ways[event.key]();
  });
  for (const button of dialog.querySelectorAll("[data-turn]")) button.addEventListener("click", () => turn(Number(button.dataset.turn)));
  for (const button of dialog.querySelectorAll("[data-zoom]")) button.addEventListener("click", () => scale(Number(button.dataset.zoom)));
  dialog.querySelector("[data-shut]").addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => links[at].focus());
  addEventListener("resize", () => { if (dialog.open) fit(); });
})();
