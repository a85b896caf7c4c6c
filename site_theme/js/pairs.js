// On paper stand the pairs that are open on the screen. A browser may open every <details> for the paper, and some do so
// before they tell it: so which of them the reader has open is written down when he opens or closes one.
(function (d) {
  "use strict";
  var paper = window.matchMedia("print"), printing = false;
  function mark(pair) { pair.classList.toggle("shut", !pair.open); }
  window.addEventListener("beforeprint", function () { printing = true; });
  window.addEventListener("afterprint", function () { printing = false; });
  d.querySelectorAll(".pair").forEach(function (pair) {
    mark(pair);
    pair.addEventListener("toggle", function () { if (!printing && !paper.matches) mark(pair); });
  });
})(document);
