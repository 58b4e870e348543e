import {
  type PictureName,
  type Piece,
  type Reported,
  reportHead,
  reportSections,
} from "../report-sections.js";
import { columnsPart, element, type Html, listPart, pageText, tablePart, widePart } from "./html.js";
import { loadPicture } from "./load-picture.js";
import { optionsPicture } from "./options-picture.js";
import { orderPicture } from "./order-picture.js";
import { PAGE_SCRIPT } from "./page-script.js";
import type { Picture } from "./picture.js";
import { PRINT_STYLE } from "./print-style.js";
import { simulationPicture } from "./simulation-picture.js";

/** The report as one page that needs nothing else: no file, no network; a script sorts tables and marks stations. */
export function reportPage(answer: Reported): string {
  const { title, answer: words, origin } = reportHead(answer);
  const sections = reportSections(answer, true).map(({ heading, pieces }, at) =>
    element(
      "section",
      { "aria-labelledby": `part-${at + 1}`, class: heading === "Caution" ? "caution keep" : null },
      element("h2", { id: `part-${at + 1}` }, heading),
      pieces.map((piece) => pieceElement(answer, piece)),
    ),
  );
  return pageText(
    { title, style: PRINT_STYLE, script: PAGE_SCRIPT },
    element(
      "main",
      {},
      element("h1", {}, title),
      words === "" ? null : element("p", {}, element("strong", {}, words)),
      element("p", { class: "small" }, origin),
      sections,
    ),
  );
}

function pieceElement(answer: Reported, piece: Piece): Html {
  switch (piece.kind) {
    case "words":
      return element("p", {}, piece.words);
    case "list":
      return listPart(piece.items);
    case "table":
      return tablePart(piece.table);
    case "picture":
      return widePart("picture", pictureOf(answer, piece.of).pieces);
    case "columns":
      return columnsPart(piece.text);
  }
}

function pictureOf({ loads, order, options, simulation }: Reported, of: PictureName): Picture {
  if (of === "days") return simulationPicture(simulation!);
  if (of === "options") return optionsPicture(options!);
  return of === "loads" ? loadPicture(loads) : orderPicture(order);
}
