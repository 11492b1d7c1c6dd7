"use strict";
(function () {
  function words(cell) {
    var last = cell && cell.lastChild;
    return last ? last.textContent.trim() : "";
  }
  function key(cell) {
    var text = words(cell);
    if (text === "" || text === "unknown") return null;
    if (!cell.classList.contains("n")) return text;
    var number = parseFloat(text.replace(/,/g, ""));
    return isNaN(number) ? text : number;
  }
  function compare(a, b, sign) {
    if (a === null || b === null) return (a === null) - (b === null);
    if (typeof a === "number" && typeof b === "number") return sign * (a - b);
    return sign * String(a).localeCompare(String(b), "en", { numeric: true, sensitivity: "base" });
  }
  var after = { none: "ascending", ascending: "descending", descending: "none" };
  document.querySelectorAll("table.sorts").forEach(function (table) {
    var body = table.tBodies[0];
    var heads = Array.from(table.tHead.rows[0].cells);
    var rows = Array.from(body.rows);
    heads.forEach(function (head, at) {
      var button = document.createElement("button");
      button.type = "button";
      button.title = "Sort by this column";
      while (head.firstChild) button.appendChild(head.firstChild);
      head.appendChild(button);
      button.addEventListener("click", function () {
        var order = after[head.getAttribute("aria-sort") || "none"];
        heads.forEach(function (other) { other.removeAttribute("aria-sort"); });
        if (order !== "none") head.setAttribute("aria-sort", order);
        var sign = order === "descending" ? -1 : 1;
        var keyed = rows.map(function (row, place) { return { row: row, place: place, key: key(row.cells[at]) }; });
        if (order !== "none") keyed.sort(function (a, b) { return compare(a.key, b.key, sign) || a.place - b.place; });
        keyed.forEach(function (of) { body.appendChild(of.row); });
      });
    });
  });
})();
