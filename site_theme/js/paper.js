// The service record's paper: a button chooses it, or the address does (record.html?paper-a4).
(function (d) {
  "use strict";
  var papers = ["paper-a4", "paper-letter"];
  function choose(paper) {
    if (papers.indexOf(paper) < 0) return;
    d.body.classList.remove.apply(d.body.classList, papers);
    d.body.classList.add(paper);
  }
  choose(location.search.slice(1));
  d.querySelectorAll("button.paper").forEach(function (button) {
    button.hidden = false;
    button.addEventListener("click", function () { choose(button.dataset.paper); print(); });
  });
})(document);
