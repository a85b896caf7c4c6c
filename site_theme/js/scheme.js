// Day or night: applied before the page is drawn, so that it does not flash; remembered where the browser allows it.
(function (d) {
  "use strict";
  var root = d.documentElement, key = "aswired-scheme";
  try {
    var kept = localStorage.getItem(key);
    if (kept === "day" || kept === "night") root.classList.add(kept);
  } catch (refused) { /* storage is closed to this page: the system's own choice holds */ }
  function dark() {
    if (root.classList.contains("night")) return true;
    if (root.classList.contains("day")) return false;
    return matchMedia("(prefers-color-scheme: dark)").matches;
  }
  d.addEventListener("DOMContentLoaded", function () {
    d.querySelectorAll(".scheme").forEach(function (button) { button.hidden = false; });
  });
  d.addEventListener("click", function (event) {
    if (!event.target.closest(".scheme")) return;
    var next = dark() ? "day" : "night";
    root.classList.remove("day", "night");
    root.classList.add(next);
    try { localStorage.setItem(key, next); } catch (refused) { /* as above */ }
  });
  // On paper everything that opens is open; Chromium does it by style, others need this.
  addEventListener("beforeprint", function () {
    d.querySelectorAll("details:not([open])").forEach(function (box) { box.open = true; box.dataset.opened = ""; });
  });
  addEventListener("afterprint", function () {
    d.querySelectorAll("details[data-opened]").forEach(function (box) { box.open = false; delete box.dataset.opened; });
  });
})(document);
