import type { Sheet, SheetsAnswer } from "../../answer/sheets/answer-sheets.js";
import type { TrainingMatrix } from "../../answer/sheets/training-matrix.js";
import { CAUTION, cautionsOfStation, cautionWords } from "../cautions.js";
import { checksOf, fitnessTable, partsTable, placesTable, skillsTable, tasksTable } from "../sheet-tables.js";
import { unitWords } from "../words/chart-words.js";
import {
  LIFTING,
  liftWords,
  originWords,
  STANDARD_STOCK,
  sheetFacts,
  sheetTitle,
  trainingWords,
} from "../words/sheet-words.js";
import { type Content, element, type Html, listPart, pageText, tablePart, widePart } from "./html.js";
import { PRINT_STYLE } from "./print-style.js";
import { chartPicture } from "./station-chart-picture.js";

/** One page of a sheet for each station and bench, and the training matrix; every sheet begins a printed page. */
export function sheetsPage(
  answer: SheetsAnswer,
  sheets: readonly Sheet[],
  training: TrainingMatrix | null,
): string {
  const all = [
    ...sheets.map((sheet, at) => sheetSection(answer, sheet, `sheet-${at + 1}`)),
    ...(training === null ? [] : [trainingSection(answer, training)]),
  ];
  const only = sheets.length === 1 && training === null ? `, ${sheets[0]!.id}` : "";
  return pageText(
    { title: `${answer.line.name}: station sheets${only}`, style: PRINT_STYLE },
    element("main", {}, all),
  );
}

function sheetSection(answer: SheetsAnswer, sheet: Sheet, id: string): Html {
  const parts = partsTable(answer, sheet);
  const checks = checksOf(answer, sheet);
  return element(
    "section",
    { class: "sheet", "aria-labelledby": id },
    element("h1", { id }, `${answer.line.name}: ${sheetTitle(sheet)}`),
    element("p", { class: "small" }, originWords(answer)),
    element(
      "dl",
      { class: "facts keep" },
      sheetFacts(answer, sheet).map(([label, words]) => [element("dt", {}, label), element("dd", {}, words)]),
    ),
    headed("Tasks in order of work", tablePart(tasksTable(answer, sheet))),
    sheet.chart === null
      ? null
      : headed(
          "One unit over time",
          element(
            "div",
            { class: "keep" },
            widePart("picture", chartPicture(sheet.chart, `${id}-chart`).pieces),
          ),
          element(
            "p",
            { class: "small" },
            unitWords(sheet.chart),
            " Letters: the tasks above. Hatched: a machine runs by itself. A line: the unit keeps equipment or stands there.",
          ),
        ),
    checks.length === 0 ? null : headed("Quality points", listPart(checks)),
    parts === null ? null : headed("Parts", tablePart(parts)),
    sheet.lifts.length === 0
      ? null
      : headed(
          "Lifts",
          listPart(sheet.lifts.map((each) => liftWords(answer.line, each))),
          element("p", { class: "small" }, LIFTING),
        ),
    element("p", { class: "small" }, STANDARD_STOCK),
    cautionAside(sheetTitle(sheet), [
      ...cautionsOfStation(answer.line, sheet.station).map(cautionWords),
      CAUTION,
    ]),
  );
}

function trainingSection(answer: SheetsAnswer, training: TrainingMatrix): Html {
  return element(
    "section",
    { class: "sheet", "aria-labelledby": "training" },
    element("h1", { id: "training" }, `${answer.line.name}: training matrix`),
    element("p", { class: "small" }, originWords(answer)),
    headed("What each place needs", tablePart(placesTable(training))),
    training.people.length === 0
      ? null
      : [
          headed("Who has which skill", tablePart(skillsTable(training))),
          headed("Who could work where", tablePart(fitnessTable(training))),
        ],
    listPart(trainingWords(training)),
    cautionAside("training matrix", [CAUTION]),
  );
}

const headed = (heading: string, ...content: readonly Content[]): Html[] => [
  element("h2", {}, heading),
  ...content.map((each) => element("div", {}, each)),
];

/** @param of what the caution belongs to */
const cautionAside = (of: string, words: readonly string[]): Html =>
  element(
    "aside",
    { class: "caution keep", "aria-label": `Caution, ${of}` },
    element("h2", {}, "Caution"),
    listPart(words),
  );
