import type { Known } from "./html.js";

/**
 * What a page does beyond being read: heads of tables sort them (up, down, as they were), and a station is marked in every table and
 * picture that it stands in. It adds the buttons itself, so that a page without it has none; Tab and Enter reach all of them.
 */
const TEXT = `
"use strict";
const buttonIn = (cell) => {
  const button = document.createElement("button");
  button.type = "button";
  button.append(...cell.childNodes);
  cell.append(button);
  return button;
};
const numberIn = (text) => parseFloat(text.replaceAll(",", ""));
const compare = (one, two) =>
  numberIn(one) - numberIn(two) || one.localeCompare(two, "en", { numeric: true });
for (const table of document.querySelectorAll("table[data-sorts]")) {
  const [body] = table.tBodies;
  const heads = [...table.tHead.rows[0].cells];
  const asWritten = [...body.rows];
  for (const head of heads)
    buttonIn(head).addEventListener("click", () => {
      const turn = { ascending: "descending", descending: "none" }[head.ariaSort] ?? "ascending";
      for (const each of heads) each.removeAttribute("aria-sort");
      head.ariaSort = turn;
      const words = (row) => row.cells[head.cellIndex].textContent;
      const sorted = asWritten.toSorted((one, two) => compare(words(one), words(two)));
      body.append(...(turn === "none" ? asWritten : turn === "ascending" ? sorted : sorted.reverse()));
    });
}
const stations = [...document.querySelectorAll("[data-station]")];
let marked = null;
const mark = (station) => {
  marked = station === marked ? null : station;
  for (const each of stations) {
    each.classList.toggle("marked", each.dataset.station === marked);
    each.querySelector("td button")?.setAttribute("aria-pressed", String(each.dataset.station === marked));
  }
};
for (const each of stations) {
  const control = each.cells === undefined ? each : buttonIn(each.cells[0]);
  if (control !== each) control.setAttribute("aria-pressed", "false");
  control.addEventListener("click", () => mark(each.dataset.station));
}
`;

export const PAGE_SCRIPT: Known = { text: TEXT, digest: "8B8b9P3ORxYt2Od3N42bBo6/fJqUvN0I0xE3sUdAjeg=" };
