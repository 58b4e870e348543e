import type { KindOfLoad, LoadBar, LoadChart, LoadRow } from "../../answer/charts/load-chart.js";
import type { OrderChart } from "../../answer/charts/order-chart.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { lengthOf, numberShown, quotientShown } from "../../time/show-numbers.js";
import { percent } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import type { PlainTable } from "../plain-table.js";
import { varyingTimes } from "../varying-times.js";
import { rowWords } from "../words/chart-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph, titleText } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";
import { widthOf } from "./width-of.js";

const SIGNS: Readonly<Record<KindOfLoad, string>> = { hands: "■", walking: "░", machine: "/" };
/** Columns of the bars beside heads in full, and the fewest of all. */
const [NARROWEST, WIDEST, LEAST] = [16, 60, 5];

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
    at === 1 ? { ...column, wraps: true, narrowest: 8 } : { ...column, breaks: at > 1 },
  );

/** The bars with what their signs mean. */
export function loadBarsText({ line, rows, longest }: LoadChart, look: Look): string {
  const show = showTimesIn(line.unit);
  const drawn = (columns: number) => {
    const column = (share: LoadBar["from"]) => lengthOf(quotientShown(share, longest), columns);
    return rows.flatMap((row) =>
      row.lanes.map((lane, at) => [
        at === 0 ? visibleText(row.id) : "",
        row.lanes.length === 1 ? "" : lane.of.kind === "machines" ? "machines" : rowWords(line, lane.of),
        barText(row, lane, column, columns),
        at === 0 ? show(row.time) : "",
        at === 0 ? percent(row.load) : "",
      ]),
    );
  };
  const tableOf = (columns: number, work: string, limit: string) =>
    formatTable(
      [
        { head: "station" },
        { head: "" },
        { head: work },
        { head: "time", align: "right" },
        { head: limit, align: "right" },
      ],
      drawn(columns),
      look.width,
    );
  const width = Number.isFinite(look.width) ? look.width : 100;
  /** So many columns are left for bars. */
  const left = (work: string, limit: string) =>
    width - Math.max(...tableOf(0, work, limit).split("\n").map(widthOf)) + work.length - 1;
  const room = left("work on a unit", "of the limit");
  const table =
    room < NARROWEST
      ? tableOf(Math.max(LEAST, left("work", "limit")), "work", "limit")
      : tableOf(Math.min(WIDEST, room), "work on a unit", "of the limit");
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
  return `${table}${paragraph(told, look)}`;
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
