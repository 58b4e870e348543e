import stringWidth from "string-width";
import type { ChartBar, ChartRowOf, StationChart } from "../../answer/show/station-chart.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Task } from "../../line/line.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference, lengthOf } from "../../time/show-numbers.js";
import { cautionsOfStation } from "../cautions.js";
import { LETTERS, letterOf, rowWords, unitWords, whoWords } from "../words/chart-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** The longest bars, and the shortest however narrow the terminal. */
const [LONGEST, SHORTEST] = [96, 24];

/** One unit at a station over time: a row for each person, each machine and each unit that stands there, then every start and end in figures. */
export function chartText(chart: StationChart, look: Look): string {
  const { line, station } = chart;
  const title = `${paintFor(look).strong(visibleText(line.name))}: ${visibleText(station.id)}\n`;
  const parts = [
    `${title}${paragraph(unitWords(chart), look)}`,
    headed("one unit over time", barsText(chart, look), look),
    headed("starts and ends", tasksText(chart, look), look),
    cautionText(cautionsOfStation(line, station), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/**
 * The picture in signs: a row for each person, machine, equipment and unit.
 *
 * @param listed where the tasks stand with their letters
 */
export function barsText(chart: StationChart, look: Look, listed: "above" | "below" = "below"): string {
  const { line, rows, length, interval, tasks } = chart;
  const labels = rows.map(({ of }) => rowWords(line, of));
  const widest = Math.max(...labels.map((label) => stringWidth(label)));
  const room = Math.max(SHORTEST, Math.min(LONGEST, look.width - widest - 4));
  const show = showTimesIn(line.unit);
  const lines = rows.map(({ of, bars }, at) => {
    const space = " ".repeat(widest - stringWidth(labels[at]!));
    return `  ${labels[at]}${space}  ${barsOf(of, bars, room)}\n`;
  });
  const end = show(length);
  const scale = `0${" ".repeat(Math.max(1, room - 1 - end.length))}${end}`;
  const next = difference(length, interval) > 0 ? ` The next unit comes at ${show(interval)}.` : "";
  const has = (kind: ChartRowOf["kind"]) => rows.some(({ of }) => of.kind === kind);
  const key = [
    `Letters: the tasks ${listed}${tasks.length > LETTERS.length ? ", again from the first" : ""}; a dot: nothing is done on this unit.`,
    ...(has("equipment") ? ["A dash: the unit keeps the equipment, and no task on it is under way."] : []),
    ...(has("unit") ? ["An equals sign: a unit stands there."] : []),
  ].join(" ");
  return `  ${" ".repeat(widest)}  ${scale}\n${lines.join("")}${paragraph(`${key}${next}`, look)}`;
}

/** Later bars are drawn over earlier ones; what takes any time is at least one sign. */
function barsOf({ kind }: ChartRowOf, bars: readonly ChartBar[], room: number): string {
  const signs = Array.from({ length: room }, () => ".");
  for (const { at, from, to } of bars) {
    if (difference(to, from) <= 0) continue;
    const first = Math.min(room - 1, lengthOf(from, room));
    const last = Math.max(first + 1, lengthOf(to, room));
    const sign = at === null ? (kind === "unit" ? "=" : "-") : letterOf(at);
    signs.fill(sign, first, last);
  }
  return signs.slice(0, room).join("");
}

/** Whether units of a model have a task; on a line of one product all do. */
const isOf = ({ times }: Task, model: number | null): boolean => model === null || times[model] !== null;

function tasksText({ line, model, tasks, equipment }: StationChart, look: Look): string {
  const show = showTimesIn(line.unit);
  const withWho = tasks.some(({ who }) => who !== null);
  const withMachine = tasks.some(({ handEnd, end }) => difference(end, handEnd) > 0);
  const rows = tasks.map((each, at) => [
    letterOf(at),
    visibleText(line.tasks[each.task]!.id),
    ...(withWho ? [whoWords(each)] : []),
    ...(isOf(line.tasks[each.task]!, model)
      ? [show(each.start), show(each.handEnd)]
      : [`not on ${visibleText(line.models[model!]!.id)}`, ""]),
    ...(withMachine ? [difference(each.end, each.handEnd) > 0 ? show(each.end) : ""] : []),
  ]);
  const columns: Column[] = [
    { head: "" },
    { head: "task", wraps: true, narrowest: 8 },
    ...(withWho ? [{ head: "who", breaks: true }] : []),
    { head: "start", align: "right", breaks: true },
    { head: "hands done", align: "right", breaks: true },
    ...(withMachine ? [{ head: "machine done", align: "right", breaks: true } as const] : []),
  ];
  const held = equipment.map(
    ({ name, start, end }) => `The unit keeps ${name} from ${show(start)} to ${show(end)}.`,
  );
  return `${formatTable(columns, rows, look.width)}${paragraph(held.join(" "), look)}`;
}
