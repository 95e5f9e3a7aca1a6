(() => {
  "use strict";
  const button = document.getElementById("dim"), root = document.documentElement;
  button.hidden = false;
  button.addEventListener("click", () => {
    button.setAttribute("aria-pressed", String(root.classList.toggle("dim")));
  });
})();
