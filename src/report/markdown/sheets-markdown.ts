import type { Sheet, SheetsAnswer } from "../../answer/sheets/answer-sheets.js";
import type { TrainingMatrix } from "../../answer/sheets/training-matrix.js";
import { CAUTION, cautionsOfStation, cautionWords } from "../cautions.js";
import { checksOf, fitnessTable, partsTable, placesTable, skillsTable, tasksTable } from "../sheet-tables.js";
import { barsText } from "../terminal/station-chart-text.js";
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
import { fencedText, plainMarkdown, plainTableMarkdown } from "./markdown.js";

/** Columns of a picture in signs. */
const PICTURE = { width: 100, colour: false } as const;

/** A heading, figures, tasks, picture, quality points, parts and cautions for each station and bench, then the training matrix. */
export function sheetsMarkdown(
  answer: SheetsAnswer,
  sheets: readonly Sheet[],
  training: TrainingMatrix | null,
): string {
  return [
    ...sheets.flatMap((sheet) => sheetParts(answer, sheet)),
    ...(training === null ? [] : trainingParts(answer, training)),
  ].join("\n");
}

function sheetParts(answer: SheetsAnswer, sheet: Sheet): string[] {
  const parts = partsTable(answer, sheet);
  const checks = checksOf(answer, sheet);
  const { chart } = sheet;
  const facts = sheetFacts(answer, sheet).map(([label, words]) => `${label}: ${words}`);
  return [
    `# ${plainMarkdown(`${answer.line.name}: ${sheetTitle(sheet)}`)}\n`,
    `${plainMarkdown(originWords(answer))}\n`,
    list(facts),
    "## Tasks in order of work\n",
    plainTableMarkdown(tasksTable(answer, sheet)),
    ...(chart === null
      ? []
      : [
          "## One unit over time\n",
          // A fence of tildes: no row of the picture begins with one.
          fencedText(barsText(chart, PICTURE, "above")),
          `${plainMarkdown(unitWords(chart))}\n`,
        ]),
    ...(checks.length === 0 ? [] : ["## Quality points\n", list(checks)]),
    ...(parts === null ? [] : ["## Parts\n", plainTableMarkdown(parts)]),
    ...(sheet.lifts.length === 0
      ? []
      : [
          "## Lifts\n",
          list(sheet.lifts.map((each) => liftWords(answer.line, each))),
          `${plainMarkdown(LIFTING)}\n`,
        ]),
    `${plainMarkdown(STANDARD_STOCK)}\n`,
    "## Caution\n",
    list([...cautionsOfStation(answer.line, sheet.station).map(cautionWords), CAUTION]),
  ];
}

function trainingParts(answer: SheetsAnswer, training: TrainingMatrix): string[] {
  return [
    `# ${plainMarkdown(`${answer.line.name}: training matrix`)}\n`,
    `${plainMarkdown(originWords(answer))}\n`,
    "## What each place needs\n",
    plainTableMarkdown(placesTable(training)),
    ...(training.people.length === 0
      ? []
      : [
          "## Who has which skill\n",
          plainTableMarkdown(skillsTable(training)),
          "## Who could work where\n",
          plainTableMarkdown(fitnessTable(training)),
        ]),
    list(trainingWords(training)),
    "## Caution\n",
    list([CAUTION]),
  ];
}

const list = (words: readonly string[]): string => words.map((each) => `- ${plainMarkdown(each)}\n`).join("");
