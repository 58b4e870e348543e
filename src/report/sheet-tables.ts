import type { Sheet, SheetsAnswer } from "../answer/sheets/answer-sheets.js";
import type { TrainingMatrix } from "../answer/sheets/training-matrix.js";
import { thousands } from "../findings/count-of.js";
import { visibleText } from "../findings/visible-text.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { quotientShown, signOf } from "../time/show-numbers.js";
import { decimal, percent } from "../time/show-values.js";
import { quantityCell } from "./parts-cells.js";
import { left, type PlainTable, right } from "./plain-table.js";
import { letterOf } from "./words/chart-words.js";
import { batchWords, roundedWords } from "./words/parts-words.js";
import { fitnessWords, isMean, manners } from "./words/sheet-words.js";

/** The tasks of a sheet in order of work, with the running total against what may be loaded. */
export function tasksTable({ line }: Pick<SheetsAnswer, "line">, sheet: Sheet): PlainTable {
  const show = showTimesIn(line.unit);
  const runs = sheet.tasks.some(({ machine }) => signOf(machine) > 0);
  const lettered = sheet.chart !== null;
  const handed = signOf(sheet.handOver) > 0;
  const shareOf = (total: Sheet["stationTime"]) =>
    signOf(sheet.stationLimit) > 0 ? percent(quotientShown(total, sheet.stationLimit)) : "";
  const rows = sheet.tasks.map((each, at) => {
    const { id, name } = line.tasks[each.task]!;
    return [
      lettered ? letterOf(at) : String(at + 1),
      name === null ? id : `${name} (${id})`,
      manners(line, each).join("; "),
      show(each.time),
      ...(runs ? [signOf(each.machine) > 0 ? show(each.machine) : ""] : []),
      show(each.total),
      shareOf(each.total),
    ];
  });
  const last = [
    "",
    "Hand over",
    "",
    show(sheet.handOver),
    ...(runs ? [""] : []),
    show(sheet.stationTime),
    shareOf(sheet.stationTime),
  ];
  return {
    columns: [
      left("step"),
      left("task"),
      left("how"),
      right(isMean(line, sheet) ? "time per good unit" : "time"),
      ...(runs ? [right("machine")] : []),
      right("running total"),
      right("of the limit"),
    ],
    rows: [...rows, ...(handed ? [last] : [])].map((row) => row.map(visibleText)),
  };
}

/** The parts of a sheet, for the batch of the answer. */
export function partsTable(
  { line, batch }: Pick<SheetsAnswer, "line" | "batch">,
  sheet: Sheet,
): PlainTable | null {
  if (sheet.parts.length === 0) return null;
  const packed = sheet.parts.some(({ packs }) => packs !== null);
  const contained = sheet.parts.some(({ containers }) => containers !== null);
  return {
    columns: [
      left("part"),
      left("name"),
      right("per good unit"),
      right(batch.shift === null ? batchWords(line, batch) : "in a shift"),
      ...(packed ? [right("packs")] : []),
      ...(contained ? [right("containers here")] : []),
      left("from"),
    ],
    rows: sheet.parts.map(({ part, perUnit, quantity, packs, containers }) =>
      [
        part.id,
        part.name ?? "",
        decimal(perUnit, 4),
        quantityCell(part.unit, quantity),
        ...(packed
          ? [packs === null ? "not stated" : `${roundedWords(packs)} of ${thousands(part.pack!)}`]
          : []),
        ...(contained ? [containers === null ? "not stated" : roundedWords(containers)] : []),
        part.from ?? "",
      ].map(visibleText),
    ),
  };
}

/** Every quality point of a sheet with its task. */
export const checksOf = ({ line }: Pick<SheetsAnswer, "line">, { tasks }: Sheet): string[] =>
  tasks.flatMap(({ task }) => {
    const { id, name, checks } = line.tasks[task]!;
    return checks.map((each) => `${name ?? id}: ${each}`);
  });

/** What each station or bench needs and, where the line names people, who works there and who could stand in. */
export const placesTable = ({ places, people }: TrainingMatrix): PlainTable => ({
  columns: [
    ...[left("place"), left("needs"), right("people")],
    ...(people.length === 0 ? [] : [left("works there"), left("could stand in")]),
  ],
  rows: places.map(({ id, kind, skills, needed, assigned, standIns }) => {
    const stand = standIns.length === 0 ? "nobody" : standIns.join(", ");
    return [
      ...[kind === "bench" ? `${id}, a bench` : id, skills.join(", "), String(needed)],
      ...(people.length === 0 ? [] : [assigned.join(", "), stand]),
    ].map(visibleText);
  }),
});

/** Who has which skill. */
export const skillsTable = ({ skills, people }: TrainingMatrix): PlainTable => ({
  columns: [left("person"), ...skills.map((each) => left(visibleText(each)))],
  rows: people.map((each) =>
    [each.id, ...skills.map((skill) => (each.skills.includes(skill) ? "yes" : ""))].map(visibleText),
  ),
});

/** Who could work where, or what they lack for it. */
export const fitnessTable = ({ places, people }: TrainingMatrix): PlainTable => ({
  columns: [left("person"), ...places.map(({ id }) => left(visibleText(id)))],
  rows: people.map(({ id, at }) => [id, ...at.map(fitnessWords)].map(visibleText)),
});
