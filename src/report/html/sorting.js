"use strict";
(function () {
  // How the language writes numbers and days stands on the table, so that this text is the same for all.
  function form(table) {
    var of = table.dataset;
    var order = of.day.match(/%[dmY]/g) || [];
    var plain = of.day.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    return {
      group: of.group,
      decimal: of.decimal,
      day: new RegExp("^" + plain.replace("%Y", "(\\d{4})").replace(/%[dm]/g, "(\\d{2})") + "( \\d{2}:\\d{2})?$"),
      place: ["%Y", "%m", "%d"].map(function (part) { return order.indexOf(part) + 1; })
    };
  }
  function key(cell, form) {
    var last = cell && cell.lastChild;
    var text = last ? last.textContent.trim() : "";
    if (text === "" || cell.querySelector(".unknown")) return null;
    if (cell.classList.contains("n")) {
      var number = parseFloat(text.split(form.group).join("").replace(form.decimal, "."));
      return isNaN(number) ? text : number;
    }
    var day = text.match(form.day);
    return day ? form.place.map(function (at) { return day[at]; }).join("-") + (day[4] || "") : text;
  }
  function compare(a, b, sign) {
    if (a === null || b === null) return (a === null) - (b === null);
    if (typeof a === "number" && typeof b === "number") return sign * (a - b);
    return sign * String(a).localeCompare(String(b), document.documentElement.lang, { numeric: true, sensitivity: "base" });
  }
  var after = { none: "ascending", ascending: "descending", descending: "none" };
  document.querySelectorAll("table.sorts").forEach(function (table) {
    var body = table.tBodies[0];
    var heads = Array.from(table.tHead.rows[0].cells);
    var rows = Array.from(body.rows);
    var written = form(table);
    heads.forEach(function (head, at) {
      var button = document.createElement("button");
      button.type = "button";
      button.title = table.dataset.sort;
      while (head.firstChild) button.appendChild(head.firstChild);
      head.appendChild(button);
      button.addEventListener("click", function () {
        var order = after[head.getAttribute("aria-sort") || "none"];
        heads.forEach(function (other) { other.removeAttribute("aria-sort"); });
        if (order !== "none") head.setAttribute("aria-sort", order);
        var sign = order === "descending" ? -1 : 1;
        var keyed = rows.map(function (row, place) { return { row: row, place: place, key: key(row.cells[at], written) }; });
        if (order !== "none") keyed.sort(function (a, b) { return compare(a.key, b.key, sign) || a.place - b.place; });
        keyed.forEach(function (of) { body.appendChild(of.row); });
      });
    });
  });
})();
