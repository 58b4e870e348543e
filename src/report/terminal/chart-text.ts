import stringWidth from "string-width";
import type { ChartBar, ChartRowOf, ChartTask, StationChart } from "../../answer/show/station-chart.js";
import { countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import { difference, isOne, lengthOf } from "../../time/show-numbers.js";
import { percent } from "../../time/show-values.js";
import { cautionsOfStation } from "../cautions.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** The longest bars, and the shortest however narrow the terminal. */
const [LONGEST, SHORTEST] = [96, 24];

const LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";

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

/** Which unit it is, how often one comes, how long it stands and may stand. */
function unitWords({ line, model, share, due, notDue, ...chart }: StationChart): string {
  const { interval, dwell, standingLimit, holds, places } = chart;
  const [every, stands, most] = showTimesApart(line.unit, interval, dwell, standingLimit);
  const which = model === null ? "A unit" : `A unit of ${line.models[model]!.id}`;
  const seldom = [
    ...due.map((each) => `with the work of every ${each} units`),
    ...notDue.map((each) => `without the work of every ${each} units`),
  ];
  const alike = isOne(share) ? "" : ` (${percent(share)} of the units)`;
  const place = places === 1 ? "comes" : "comes to each place";
  const room = holds === 1 ? "" : `, as a place has room for ${holds} units`;
  const long = difference(dwell, standingLimit) > 0 ? "; that is too long unless others stand shorter" : "";
  return `${[which, ...seldom].join(" ")}${alike} stands ${stands}. One ${place} every ${every}, and may stand ${most} on average${room}${long}.`;
}

function barsText(chart: StationChart, look: Look): string {
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
    `Letters: the tasks below${tasks.length > LETTERS.length ? ", again from the first" : ""}; a dot: nothing is done on this unit.`,
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

const letterOf = (at: number): string => LETTERS[at % LETTERS.length]!;

function rowWords(line: Line, of: ChartRowOf): string {
  switch (of.kind) {
    case "crew":
      return of.people === 1 ? "person" : countPeople(of.people);
    case "person":
      return `person ${of.number}`;
    case "side":
      return of.side;
    case "machine":
      return `machine for ${visibleText(line.tasks[of.task]!.id)}`;
    case "equipment":
      return visibleText(of.name);
    case "unit":
      return `unit ${of.number}`;
  }
}

function tasksText({ line, tasks, equipment }: StationChart, look: Look): string {
  const show = showTimesIn(line.unit);
  const withWho = tasks.some(({ who }) => who !== null);
  const withMachine = tasks.some(({ handEnd, end }) => difference(end, handEnd) > 0);
  const rows = tasks.map((each, at) => [
    letterOf(at),
    visibleText(line.tasks[each.task]!.id),
    ...(withWho ? [whoWords(each)] : []),
    show(each.start),
    show(each.handEnd),
    ...(withMachine ? [difference(each.end, each.handEnd) > 0 ? show(each.end) : ""] : []),
  ]);
  const columns: Column[] = [
    { head: "" },
    { head: "task", wraps: true, narrowest: 8 },
    ...(withWho ? [{ head: "who" }] : []),
    { head: "start", align: "right" },
    { head: "hands done", align: "right" },
    ...(withMachine ? [{ head: "machine done", align: "right" } as const] : []),
  ];
  const held = equipment.map(
    ({ name, start, end }) => `The unit keeps ${name} from ${show(start)} to ${show(end)}.`,
  );
  return `${formatTable(columns, rows, look.width)}${paragraph(held.join(" "), look)}`;
}

function whoWords({ who }: ChartTask): string {
  if (who === null) return "";
  if (typeof who === "string") return who;
  return who.length === 1 ? `person ${who[0]}` : `persons ${listOf(who.map(String))}`;
}
