import type { KindOfLoad, LoadBar, LoadChart, LoadRow } from "../../answer/charts/load-chart.js";
import type { OrderChart } from "../../answer/charts/order-chart.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { lengthOf, numberShown, quotientShown } from "../../time/show-numbers.js";
import { percent } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import type { PlainTable } from "../plain-table.js";
import { varyingTimes } from "../varying-times.js";
import { benchesLeftOutWords, rowWords } from "../words/chart-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph, titleText } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";
import { widthOf } from "./width-of.js";

const SIGNS: Readonly<Record<KindOfLoad, string>> = { hands: "■", walking: "░", machine: "/" };
/** Columns of the bars, from the fewest that are worth a look. */
const [NARROWEST, WIDEST] = [16, 60];

/** The loads of the stations against the pace, a bar for each person or side with work of its own. */
export function loadChartText(chart: LoadChart, look: Look): string {
  const { line, plan } = chart;
  const times = varyingTimes(chart);
  return [
    titleText(line, look),
    headed("loads of the stations", loadBarsText(chart, look), look),
    headed(
      "times that vary",
      times === null ? "" : formatTable(timesColumns(times), times.rows, look.width),
      look,
    ),
    cautionText(cautionsOfPlan(line, plan), look),
  ]
    .filter((part) => part !== "")
    .join("\n");
}

/** Names and heads give way to a narrow terminal. */
const timesColumns = ({ columns }: PlainTable): Column[] =>
  columns.map((column, at) =>
    at === 0 ? { ...column, wraps: true, narrowest: 8 } : { ...column, breaks: at > 1 },
  );

/** The bars with what their signs mean. */
export function loadBarsText(chart: LoadChart, look: Look): string {
  const { rows } = chart;
  const width = Number.isFinite(look.width) ? look.width : 100;
  const beside = [
    ["work on a unit", "of the limit"],
    ["work", "limit"],
  ].map(([work, limit]) => {
    const tableOf = (columns: number) => loadTable(chart, { columns, work: work!, limit: limit! }, look);
    const widest = Math.max(...tableOf(0).split("\n").map(widthOf));
    return { tableOf, room: width - widest + work!.length - 1 };
  });
  const first = beside.find(({ room }) => room >= NARROWEST);
  const drawn =
    first === undefined ? loadsBelow(chart, width, look) : first.tableOf(Math.min(WIDEST, first.room));
  const seen = new Set(
    rows.flatMap(({ lanes }) => lanes.flatMap(({ bars }) => bars.map(({ kind }) => kind))),
  );
  const key = [
    ...(seen.has("walking") ? [`${SIGNS.walking} walking`] : []),
    ...(seen.has("machine") ? [`${SIGNS.machine} machine by itself`] : []),
    ...(rows.some(({ lanes }) => lanes.some(({ nineInTen }) => nineInTen !== null))
      ? ["> nine units in ten take no longer"]
      : []),
  ];
  const told = `${SIGNS.hands} hands${key.map((each) => `, ${each}`).join("")}; | limit of the station; ¦ pace, all of its working time.`;
  const benches = benchesLeftOutWords(chart);
  return `${drawn}${paragraph(told, look)}${benches === null ? "" : paragraph(benches, look)}`;
}

/** Lanes of a station with their bars, so many columns long; a lane without a name of its own is the whole station. */
function lanesOf({ line, longest }: LoadChart, row: LoadRow, columns: number) {
  const column = (share: LoadBar["from"]) => lengthOf(quotientShown(share, longest), columns);
  return row.lanes.map((lane) => ({
    name: row.lanes.length === 1 ? "" : lane.of.kind === "machines" ? "machines" : rowWords(line, lane.of),
    bar: barText(row, lane, column, columns),
  }));
}

/** A row a lane, with the figures of its station beside the bars. */
function loadTable(
  chart: LoadChart,
  { columns, work, limit }: { readonly columns: number; readonly work: string; readonly limit: string },
  look: Look,
): string {
  const show = showTimesIn(chart.line.unit);
  const rows = chart.rows.flatMap((row) =>
    lanesOf(chart, row, columns).map(({ name, bar }, at) => [
      at === 0 ? visibleText(row.id) : "",
      name,
      bar,
      at === 0 ? show(row.time) : "",
      at === 0 ? percent(row.load) : "",
    ]),
  );
  const right = { align: "right" } as const;
  const heads: Column[] = [
    { head: "time", ...right },
    { head: limit, ...right },
  ];
  return formatTable([{ head: "station" }, { head: "" }, { head: work }, ...heads], rows, look.width);
}

/** The same where a terminal is too narrow for that: the figures of a station, and its bars below. */
function loadsBelow(chart: LoadChart, width: number, look: Look): string {
  const show = showTimesIn(chart.line.unit);
  return chart.rows
    .map((row) => {
      const told = `${visibleText(row.id)}: ${show(row.time)}, ${percent(row.load)} of the limit`;
      const bars = lanesOf(chart, row, Math.max(NARROWEST, width - 5)).map(
        ({ name, bar }) =>
          `${name === "" ? "" : paragraph(`${visibleText(row.id)}, ${name}:`, look)}    ${bar.trimEnd()}\n`,
      );
      return `${paragraph(told, look)}${bars.join("")}`;
    })
    .join("");
}

/** Signs of work, with marks where limit and pace lie. */
function barText(
  { limitShare }: LoadRow,
  { bars, nineInTen }: LoadRow["lanes"][number],
  column: (share: LoadBar["from"]) => number,
  length: number,
): string {
  const signs = Array.from({ length: length + 1 }, () => " ");
  for (const { kind, from, to } of bars) signs.fill(SIGNS[kind], column(from), column(to));
  if (nineInTen !== null) signs.fill("-", column(bars.at(-1)!.to), column(nineInTen));
  const marks: [number, string][] = [
    ...(nineInTen === null ? [] : [[column(nineInTen), ">"] satisfies [number, string]]),
    [column(numberShown("1")), "¦"],
    [column(limitShare), "|"],
  ];
  for (const [at, sign] of marks) signs[Math.min(at, length)] = sign;
  return signs.join("");
}

/** The order of work by station: what each task waits for, and where that is done. */
export function orderChartText({ line, plan, columns, arrows, movedFrom }: OrderChart, look: Look): string {
  const stationByTask = new Map(columns.flatMap(({ id, tasks }) => tasks.map((task) => [task, id] as const)));
  const rows = columns.flatMap(({ id, kind, tasks }) =>
    tasks.map((task, at) => {
      const waits = arrows
        .filter(({ to }) => to === task)
        .map(({ from }) => {
          const where = stationByTask.get(from);
          const known = visibleText(line.tasks[from]!.id);
          return where === id || where === undefined ? known : `${known} (${visibleText(where)})`;
        });
      const was = movedFrom.get(task);
      return [
        at > 0 ? "" : `${visibleText(id)}${kind === "bench" ? " (bench)" : ""}`,
        visibleText(line.tasks[task]!.id),
        waits.join(", "),
        ...(movedFrom.size === 0 ? [] : [was === undefined ? "" : visibleText(was)]),
      ];
    }),
  );
  const heads = [
    { head: "station" },
    { head: "task" },
    { head: "after", wraps: true, narrowest: 12 },
    ...(movedFrom.size === 0 ? [] : [{ head: "was at" }]),
  ];
  return [
    titleText(line, look),
    headed("order of work by station", formatTable(heads, rows, look.width), look),
    cautionText(cautionsOfPlan(line, plan), look),
  ].join("\n");
}
