// Boxes that were ticked stay ticked on this device, where the browser allows it; the record itself is the job file.
(function (d) {
  "use strict";
  var key = "aswired-ticks " + location.pathname;
  function boxes() { return d.querySelectorAll(".tick input"); }
  try {
    var kept = JSON.parse(localStorage.getItem(key) || "[]");
    boxes().forEach(function (box) { box.checked = kept.indexOf(box.id) >= 0; });
  } catch (refused) { /* storage is closed to this page: ticks hold while it is open */ }
  d.addEventListener("change", function (event) {
    if (!event.target.closest(".tick")) return;
    var ticked = [].filter.call(boxes(), function (box) { return box.checked; });
    try {
      localStorage.setItem(key, JSON.stringify(ticked.map(function (box) { return box.id; })));
    } catch (refused) { /* as above */ }
  });
})(document);
