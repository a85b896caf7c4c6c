/* Search over assets/js/find-index.js. Works from file://; the page says so when scripts are off.
   Order of hits: the thing itself, the word exactly, words that begin so, words that hold it; one letter wrong only
   when nothing else is found. Codes (anything with a digit) are never guessed at.
   The index holds the words that the pages show. Names of colours are told by their code (GN/WH: green, white, stripe),
   what sort of thing a row is by the first word of its title, and a day is looked for as the pages write it. */
(function () {
  "use strict";
  var UNIT = /(^|[^\w.])(\d[\d./]*)\s+(awg|mm2|mm|cm|m|in|ft|a|ma|v|mv|w|ohm|mohm)(?!\w)/g;
  var EDGE = /^["'`.,:;!?()[\]{}<>=*–—·|]+|["'`.,:;!?()[\]{}<>=*–—·|]+$/g;
  var MOST = 60;
  var DAY = /(^|[^\w-])(\d{4})-(\d\d)-(\d\d)(?![\w-])/g;
  var MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

  function wordsOf(text, colours) {
    var folded = text.toLowerCase().replace(/ß/g, "ss").replace(/²/g, "2").replace(/ω/g, "ohm").replace(UNIT, "$1$2$3")
      .replace(DAY, function (all, before, year, month, day) { return MONTHS[month - 1] ? before + +day + " " + MONTHS[month - 1] + " " + year : all; });
    var words = folded.split(/[\s,;()]+/).map(function (w) { return w.replace(EDGE, ""); }).filter(Boolean);
    return words.reduce(function (all, word) {
      if (word.indexOf("/") < 1) return all.concat(word);
      var parts = word.split("/"), codes = parts.map(function (p) { return colours[p] || p; });
      return all.concat(codes.join("/"));                        /* green/white is typed for GN/WH */
    }, []);
  }

  function oneEdit(a, b) {
    if (a === b || Math.abs(a.length - b.length) > 1) return false;
    var i = 0, m = a.length, n = b.length;
    while (i < m && i < n && a[i] === b[i]) i++;
    if (m === n) {
      return a.slice(i + 1) === b.slice(i + 1) ||
        (a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2));
    }
    return m > n ? a.slice(i + 1) === b.slice(i) : a.slice(i) === b.slice(i + 1);
  }

  /* Words of each job as a list, `says` the words that stand for each of them, and what a row's own line says of it. */
  function open(data) {
    var names = {};
    Object.keys(data.colours).forEach(function (name) { names[data.colours[name]] = name; });
    data.jobs.forEach(function (job) {
      if (typeof job.words !== "string") return;
      job.words = job.words ? job.words.split(" ") : [];
      job.says = job.words.map(function (word) {
        var said = word.split("/").map(function (part) { return names[part]; });
        if (!said[0] || said.indexOf(undefined) >= 0) return [];
        return said.length > 1 ? said.concat(said.length > 2 ? "stripes" : "stripe") : said;
      });
      var own = {};
      job.rows.forEach(function (row, number) {
        wordsOf(row[2] + " " + row[3].split(" ")[0], {}).forEach(function (word) {
          own["=" + word] = (own["=" + word] || []).concat(number);
        });
      });
      Object.keys(own).forEach(function (key) {
        job.words.push(key.slice(1));
        job.says.push([]);
        job.hits.push(own[key].map(function (row, at) { return at ? row - own[key][at - 1] : row; }));
      });
    });
    return data;
  }

  /* All rows that hold one word: job number -> row number -> score. */
  function rowsWith(data, word) {
    var others = [];
    data.same.forEach(function (group) {
      if (group.indexOf(word) >= 0 || group.indexOf(word.replace(/s$/, "")) >= 0) others = others.concat(group);
    });
    others = others.filter(function (other) { return other !== word; });
    var code = /\d/.test(word);
    var exact = code && data.jobs.some(function (job) { return job.words.indexOf(word) >= 0; });
    function score(candidate) {
      if (candidate === word) return 8;
      if (others.indexOf(candidate) >= 0) return 6;
      if (candidate.slice(0, word.length) === word) {
        /* C1 is there: C14 is another thing, C1-W12-loom is a part of it */
        return exact && !/[-./]/.test(candidate[word.length]) ? 0 : 4;
      }
      return !exact && word.length > 1 && candidate.indexOf(word) > 0 ? 2 : 0;
    }
    var found = collect(data, score);
    if (!found.any && !code && word.length > 3 && word.indexOf("/") < 0) {
      found = collect(data, function (candidate) { return oneEdit(word, candidate) ? 1 : 0; });
    }
    found.meant = others.concat(word);
    return found;
  }

  function collect(data, score) {
    var any = false;
    var jobs = data.jobs.map(function (job) {
      var rows = {};
      job.words.forEach(function (candidate, number) {
        var points = job.says[number].reduce(function (most, said) { return Math.max(most, score(said)); }, score(candidate));
        if (!points) return;
        any = true;
        job.hits[number].reduce(function (at, step) {
          rows[at + step] = Math.max(rows[at + step] || 0, points);
          return at + step;
        }, 0);
      });
      return rows;
    });
    return { any: any, jobs: jobs };
  }

  /* Every word must be in the row, but for plain words that are nowhere: `aside` of the hits names them. Best first, then in the order of jobs and sheets. */
  function search(data, text) {
    var words = wordsOf(text, data.colours);
    if (!words.length) return [];
    var each = words.map(function (word) { return rowsWith(data, word); });
    var plain = words.map(function (word, w) { return !each[w].any && !/[\d/]/.test(word) ? word : ""; });
    var aside = plain.filter(Boolean);                           /* horn dead: nothing is called dead, the horn is there */
    if (aside.length === words.length) aside = [];
    if (aside.length) {
      each = each.filter(function (_, w) { return !plain[w]; });
      words = words.filter(function (_, w) { return !plain[w]; });
    }
    var hits = [], striped = {};                                 /* green white: a wire of both comes before two wires */
    words.forEach(function (word, w) {
      var next = data.colours[words[w + 1]];
      if (data.colours[word] && next) striped[data.colours[word] + "/" + next] = true;
    });
    var both = collect(data, function (candidate) { return striped[candidate] ? 20 : 0; });
    data.jobs.forEach(function (job, j) {
      Object.keys(each[0].jobs[j]).forEach(function (key) {
        var total = 0;
        for (var w = 0; w < each.length; w++) {
          if (!each[w].jobs[j][key]) return;
          total += each[w].jobs[j][key];
        }
        total += both.jobs[j][key] || 0;
        var row = job.rows[key], page = job.pages[row[0]];
        var names = wordsOf(row[2], {}), told = names.concat(wordsOf(row[3], {}));
        if (names.join(" ") === words.join(" ")) total += 100;
        else if (each.every(function (one) { return one.meant.some(function (w) { return told.indexOf(w) >= 0; }); })) total += 5;
        hits.push({ job: job.job, page: page[1], uri: page[0], anchor: row[1], id: row[2], title: row[3], score: total, order: j * 1e6 + +key });
      });
    });
    hits.sort(function (a, b) { return b.score - a.score || a.order - b.order; });
    hits.aside = aside;
    return hits;
  }

  function href(hit) {
    return hit.uri.split("/").map(encodeURIComponent).join("/") + (hit.anchor ? "#" + encodeURIComponent(hit.anchor) : "");
  }

  function start(data) {
    var box = document.getElementById("q"), list = document.getElementById("hits");
    var count = document.getElementById("find-said");
    if (!box || !list || !count) return;

    function element(name, text, className) {
      var made = document.createElement(name);
      made.textContent = text;
      if (className) made.className = className;
      return made;
    }
    function show() {
      var text = box.value.trim(), hits = search(data, text);
      list.textContent = "";
      hits.slice(0, MOST).forEach(function (hit) {
        var item = document.createElement("li"), link = document.createElement("a");
        link.href = href(hit);
        link.appendChild(element("b", hit.id));
        var said = element("span", hit.title);
        said.appendChild(document.createElement("br"));
        said.appendChild(element("small", hit.job + " · " + hit.page + (hit.anchor ? " · " + hit.anchor : "")));
        link.appendChild(said);
        item.appendChild(link);
        list.appendChild(item);
      });
      count.textContent = !text ? "" : !hits.length ? "Nothing found for “" + text + "”." :
        hits.length + (hits.length === 1 ? " find" : " finds") + " for “" + text + "”" +
        (hits.length > MOST ? "; the first " + MOST + " are shown, add a word." : ".") +
        (hits.aside.length ? " Nowhere: “" + hits.aside.join("”, “") + "”." : "");
    }
    function links() { return Array.prototype.slice.call(list.querySelectorAll("a")); }

    document.addEventListener("keydown", function (event) {
      var all = links(), at = all.indexOf(document.activeElement);
      if (event.key === "ArrowDown" && (document.activeElement === box || at >= 0) && all.length) {
        all[Math.min(at + 1, all.length - 1)].focus();
      } else if (event.key === "ArrowUp" && at >= 0) {
        (at ? all[at - 1] : box).focus();
      } else if (event.key === "Escape" && at >= 0) {
        box.focus();
      } else if (event.key === "/" && document.activeElement !== box) {
        box.focus();
      } else return;
      event.preventDefault();
    });
    if (box.form) box.form.addEventListener("submit", function (event) { event.preventDefault(); show(); });
    box.addEventListener("input", show);
    box.value = new URLSearchParams(location.search).get("q") || box.value;
    show();
  }

  if (typeof module === "object" && module.exports) module.exports = { open: open, search: search, wordsOf: wordsOf };
  else if (window.FIND) start(open(window.FIND));
})();
