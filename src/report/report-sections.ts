import type { ReportAnswer } from "../answer/report/answer-report.js";
import type { Finding } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { visibleText } from "../findings/visible-text.js";
import type { SimulationAnswer } from "../simulate/simulation-answer.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { decimal, percent } from "../time/show-values.js";
import { CAUTION, cautionsOfPlan, cautionWords } from "./cautions.js";
import { benchesOf } from "./compare-benches.js";
import { cellRows, signWords } from "./compare-cells.js";
import { notesOf } from "./compare-notes.js";
import { left, type PlainTable, right } from "./plain-table.js";
import { modelsText } from "./terminal/models-text.js";
import { needsText } from "./terminal/needs-text.js";
import { paceKept } from "./terminal/pace-kept-text.js";
import { paceRows } from "./terminal/pace-text.js";
import { proofText } from "./terminal/proof-text.js";
import { figures } from "./terminal/result-text.js";
import { simulatedBuffersText, simulatedStationsText } from "./terminal/simulate-text.js";
import { simulatedBenchesText, simulatedPartsText } from "./terminal/simulated-benches-text.js";
import { testsText } from "./terminal/tests-text.js";
import { peaksText } from "./terminal/work-text.js";
import { varyingTimes } from "./varying-times.js";
import { answerWords, failsWords } from "./words/answer-words.js";
import { repairWords, runWords, simulationWords } from "./words/simulate-words.js";
import { rankedVerdict } from "./words/verdict-words.js";

export type PictureName = "loads" | "order" | "options" | "days";

/** Everything that a report says, with simulated days where they were asked for. */
export interface Reported extends ReportAnswer {
  readonly simulation: SimulationAnswer | null;
}

/** A piece of a report, for whatever draws it; words are plain text. */
export type Piece =
  | { readonly kind: "words"; readonly words: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  | { readonly kind: "table"; readonly table: PlainTable }
  | { readonly kind: "picture"; readonly of: PictureName }
  /** Text in columns, as a terminal shows it. */
  | { readonly kind: "columns"; readonly text: string };

export interface ReportSection {
  readonly heading: string;
  readonly pieces: readonly Piece[];
}

/** What stands at the head of a report: the name, the answer in a line, and what it is of. */
export interface ReportHead {
  readonly title: string;
  readonly answer: string;
  readonly origin: string;
}

const PRINTED = { width: 100, colour: false } as const;

export function reportHead({ shown, file, fingerprint }: ReportAnswer): ReportHead {
  const { line } = shown;
  const demand =
    line.demand === null
      ? ""
      : `; ${decimal(line.demand.units, 3)} good units wanted per ${line.demand.period}`;
  const made = fingerprint === null ? "" : `, made for the line with fingerprint ${fingerprint}`;
  return {
    title: line.name,
    answer: [failsWords(shown), answerWords(shown)].filter((words) => words !== "").join(" "),
    origin: `Line file ${line.file}; plan ${file}${made}${demand}.`,
  };
}

/**
 * The sections of a report in order: what is asked first stands first. Empty ones are left out.
 *
 * @param isDrawn pictures are drawn, not put into signs and lists
 */
export function reportSections(answer: Reported, isDrawn: boolean): ReportSection[] {
  const { shown } = answer;
  const text = (whole: string): Piece[] => (whole === "" ? [] : [{ kind: "columns", text: whole }]);
  const sections: ReportSection[] = [
    { heading: "What to do about it", pieces: findingsList(shown.findings, ["error", "warning"]) },
    { heading: "What changes", pieces: changePieces(answer) },
    { heading: "Loads against the pace", pieces: shown.measures === null ? [] : loadPieces(answer, isDrawn) },
    {
      heading: "Stations",
      pieces: [{ kind: "table", table: stationsTable(answer) }, ...benchPieces(answer)],
    },
    { heading: "Chance to keep the pace", pieces: paceKeptPieces(answer) },
    { heading: "Figures", pieces: rowsTable(shown.measures === null ? [] : figures(shown, shown.measures)) },
    { heading: "Pace", pieces: rowsTable(paceRows(shown)) },
    { heading: "Times that vary", pieces: varyingPieces(answer) },
    { heading: "Options", pieces: optionPieces(answer, isDrawn) },
    { heading: "Order of work", pieces: orderPieces(answer, isDrawn) },
    { heading: "Models", pieces: text(modelsText(shown, PRINTED)) },
    { heading: "Units that take longer", pieces: text(peaksText(shown, PRINTED)) },
    { heading: "Tests and repair", pieces: text(testsText(shown, PRINTED)) },
    { heading: "What the stations need", pieces: text(needsText(shown, PRINTED)) },
    { heading: "Simulated days", pieces: simulationPieces(answer, isDrawn) },
    { heading: "Proof", pieces: text(proofText(shown, PRINTED)) },
    // What asks for nothing stands behind all figures, as a long line has many.
    { heading: "Notes", pieces: findingsList(shown.findings, ["note"]) },
    { heading: "Caution", pieces: [{ kind: "list", items: cautionItems(answer) }] },
  ];
  return sections.filter(({ pieces }) => pieces.length > 0);
}

function loadPieces({ loads }: ReportAnswer, isDrawn: boolean): Piece[] {
  const varies = loads.rows.some(({ lanes }) => lanes.some(({ nineInTen }) => nineInTen !== null));
  const words = [
    "Each bar is the work on one good unit as a share of the working time of its station.",
    ...(isDrawn ? ["A number is the turn of a task in the order of work."] : []),
    ...(varies ? ["For nine units in ten, the times count as normal and independent."] : []),
  ];
  return [
    { kind: "picture", of: "loads" },
    { kind: "words", words: words.join(" ") },
  ];
}

function varyingPieces({ loads }: ReportAnswer): Piece[] {
  const table = varyingTimes(loads);
  return table === null ? [] : [{ kind: "table", table }];
}

function orderPieces({ order }: ReportAnswer, isDrawn: boolean): Piece[] {
  const left = "precedences that others imply are left out.";
  const picture: Piece = { kind: "picture", of: "order" };
  if (!isDrawn) return [picture, { kind: "words", words: `Each task with those that it waits for; ${left}` }];
  const moved = order.movedFrom.size === 0 ? "" : " Thick frames moved.";
  const benches = order.columns.some(({ kind }) => kind === "bench") ? " Broken frames are benches." : "";
  const words = `A line leads from each task to those that wait for it; ${left}${moved}${benches}`;
  return [picture, { kind: "words", words }];
}

/** Those of the first severity first. */
function findingsList(findings: readonly Finding[], severities: readonly Finding["severity"][]): Piece[] {
  const items = severities.flatMap((severity) =>
    findings
      .filter((each) => each.severity === severity)
      .map(({ message }) => (severity === "note" ? "" : `${severity}: `) + visibleText(message)),
  );
  return items.length === 0 ? [] : [{ kind: "list", items }];
}

function changePieces({ shown, before, moves }: ReportAnswer): Piece[] {
  if (before === null) return [];
  const { line } = shown;
  const told =
    moves.length === 0
      ? "No task moves."
      : `${moves.length === 1 ? "1 task moves" : `${moves.length} tasks move`}.`;
  const first: Piece[] = [
    { kind: "words", words: `${visibleText(before.file)}: ${answerWords(before.shown)}` },
    { kind: "words", words: `This plan: ${answerWords(shown)} ${told}` },
  ];
  const rows = moves.map(({ task, from, to }) => [nameOf(line.tasks[task]!), from, to].map(visibleText));
  const columns = [left("task"), left("from"), left("to")];
  const table: PlainTable = { columns, rows, rowsOf: "tasks" };
  return rows.length === 0 ? first : [...first, { kind: "table", table }];
}

/** The verdict, the figures side by side, and what they do not say; only the names of options that nobody asked to compare. */
function optionPieces({ shown: { line }, options: comparison }: ReportAnswer, isDrawn: boolean): Piece[] {
  if (comparison === null) {
    const names = line.options.map(({ name }) => visibleText(name));
    const words = `The line has the ${names.length === 1 ? "option" : "options"} ${listOf(names)}; report --options puts ${names.length === 1 ? "it" : "them"} beside the line as it is.`;
    return names.length === 0 ? [] : [{ kind: "words", words }];
  }
  const { options, facts, verdict } = comparison;
  const names = options.map(({ asked }) => visibleText(asked.name));
  const rows = cellRows(comparison).map(({ label, cells }) => [
    label,
    ...cells.map(({ value, difference, isBest }) =>
      visibleText(`${value}${isBest ? " ✓" : ""}${difference === "" ? "" : ` (${difference})`}`),
    ),
  ]);
  const notes = options.flatMap((option, at) =>
    [
      ...benchesOf(option).map(({ id, words }) => `bench ${id}: ${words}`),
      ...notesOf(option, facts[at]!),
    ].map((words) => `${names[at]}: ${visibleText(words)}`),
  );
  return [
    {
      kind: "list",
      items: rankedVerdict(verdict).map(({ rank, words }) => visibleText(`${rank} ${words}`.trim())),
    },
    { kind: "table", table: { columns: [left("figure"), ...names.map(right)], rows } },
    { kind: "words", words: `${signWords(comparison, "✓")}; in brackets the difference to ${names[0]}.` },
    ...(isDrawn ? [{ kind: "picture", of: "options" } as const] : []),
    ...(notes.length === 0 ? [] : [{ kind: "list", items: notes } as const]),
  ];
}

function simulationPieces({ simulation }: Reported, isDrawn: boolean): Piece[] {
  if (simulation === null) return [];
  const left = simulation.leftOut.map(({ message }) => visibleText(message));
  return [
    { kind: "words", words: visibleText(simulationWords(simulation)) },
    ...(isDrawn ? [{ kind: "picture", of: "days" } as const] : []),
    { kind: "columns", text: simulatedStationsText(simulation, PRINTED) },
    ...(simulation.repair === null
      ? []
      : [{ kind: "words", words: visibleText(repairWords(simulation)) } as const]),
    ...[
      simulatedBuffersText(simulation, PRINTED),
      ...simulatedBenchesText(simulation, PRINTED),
      simulatedPartsText(simulation, PRINTED),
    ]
      .filter((each) => each !== "")
      .map((each) => ({ kind: "columns", text: each }) as const),
    { kind: "words", words: visibleText(runWords(simulation)) },
    ...(left.length === 0 ? [] : [{ kind: "list", items: left } as const]),
  ];
}

/** A row a station: what it does, who stands there, how long it takes against its limit. */
export function stationsTable({ shown }: ReportAnswer): PlainTable {
  const { line, stations } = shown;
  const show = showTimesIn(line.unit);
  const withPlaces = stations.some(({ places }) => places !== 1);
  const withDwell = stations.some(({ machineTime }) => machineTime !== null);
  return {
    columns: [
      left("station"),
      left("tasks in order of work"),
      right("people"),
      ...(withPlaces ? [right("places")] : []),
      right("time"),
      right("limit"),
      right("load"),
      right("idle"),
      ...(withDwell ? [right("unit stands")] : []),
    ],
    rowsOf: "stations",
    rows: stations.map((station) =>
      [
        station.id,
        station.tasks.map((task) => nameOf(line.tasks[task]!)).join(", "),
        String(station.operators),
        ...(withPlaces ? [String(station.places)] : []),
        show(station.stationTime),
        show(station.stationLimit),
        percent(station.load),
        show(station.idle),
        ...(withDwell ? [show(station.dwell)] : []),
      ].map(visibleText),
    ),
  };
}

function benchPieces({ shown, benches }: ReportAnswer): Piece[] {
  if (benches.length === 0) return [];
  const show = showTimesIn(shown.line.unit);
  const rows = benches.map(({ bench, work, workingTime, people }) =>
    [
      bench.id,
      bench.tasks.map((task) => nameOf(shown.line.tasks[task]!)).join(", "),
      String(people),
      String(bench.places),
      show(work),
      show(workingTime),
    ].map(visibleText),
  );
  const columns = [
    left("bench"),
    left("tasks in order of work"),
    right("people"),
    right("places"),
    right("time"),
    right("working time"),
  ];
  return [{ kind: "table", table: { columns, rows, rowsOf: "stations" } }];
}

/** Where a chance to keep the pace is asked for. */
function paceKeptPieces({ shown }: ReportAnswer): Piece[] {
  const kept = paceKept(shown);
  if (kept === null) return [];
  return [
    { kind: "table", table: kept.table },
    { kind: "words", words: kept.words },
  ];
}

/** Rows of a label, a value and what it is made of. */
function rowsTable(rows: readonly [string, string, string][]): Piece[] {
  const columns = [left("figure"), right("value"), left("what it is")];
  return rows.length === 0
    ? []
    : [{ kind: "table", table: { columns, rows: rows.map((row) => row.map(visibleText)) } }];
}

const cautionItems = ({ shown, order }: ReportAnswer): string[] => [
  ...cautionsOfPlan(shown.line, order.plan).map((each) => visibleText(cautionWords(each))),
  CAUTION,
];

const nameOf = ({ id, name }: { readonly id: string; readonly name: string | null }): string =>
  name === null ? id : `${name} (${id})`;
