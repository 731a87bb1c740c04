"use strict";
// Every table of a few rows can be sorted by a click, or by the keyboard, on a heading.
(() => {
  const key = (row, place) => {
    const cell = row.cells[place];
    return cell.hasAttribute("data-sort") ? Number(cell.dataset.sort) : cell.textContent.trim().toLowerCase();
  };
  const before = (one, other) => {
    if (one === other) return 0;
    if (one === "") return 1;
    if (other === "") return -1;
    return typeof one === "number" ? one - other : one.localeCompare(other, undefined, { numeric: true });
  };
  const sort = (table, heading) => {
    const falling = heading.getAttribute("aria-sort") === "ascending";
    for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
    heading.setAttribute("aria-sort", falling ? "descending" : "ascending");
    const body = table.tBodies[0];
    const rows = [...body.rows].map((row) => [key(row, heading.cellIndex), row]);
    rows.sort(([one], [other]) => {
      const empty = one === "" || other === "";
      return falling && !empty ? before(other, one) : before(one, other);
    });
    body.append(...rows.map(([, row]) => row));
  };
  for (const table of document.querySelectorAll("table")) {
    if (table.tBodies[0].rows.length < 2) continue;
    for (const heading of table.tHead.rows[0].cells) {
      const button = document.createElement("button");
      button.type = "button";
      button.append(...heading.childNodes);
      heading.append(button);
      button.addEventListener("click", () => sort(table, heading));
    }
  }
})();
