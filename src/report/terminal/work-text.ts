import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import type { StationMeasures } from "../../plan/measure.js";
import type { Peak } from "../../plan/models/peaks.js";
import type { Ratio } from "../../time/ratio.js";
import { type ShowTime, showTimesIn } from "../../time/show-in-unit.js";
import { signOf } from "../../time/show-numbers.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable, orElse } from "./table.js";

/** On a line with sides: who works where, and when each task starts. */
export function sidesText({ line, stations }: BalanceAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const rows = stations.flatMap(({ id, tasks, sides, starts }) => {
    if (sides === null) return [];
    const used = (["left", "right", "both"] as const).filter((side) => sides.includes(side));
    return used.map((side, at) => {
      const own = tasks.flatMap((task, index) =>
        sides[index] === side ? [`${visibleText(line.tasks[task]!.id)} at ${show(starts[index]!)}`] : [],
      );
      return [at === 0 ? id : "", side === "both" ? "both at once" : side, own.join(", ")];
    });
  });
  if (rows.length === 0) return "";
  const columns = [
    { head: "station" },
    { head: "side" },
    { head: "tasks and when they start", wraps: true, narrowest: 8 },
  ];
  return formatTable(columns, rows, look.width);
}

/** Where people of a place share the work of a unit: who does what, and when each task starts; work of several people stands at each of them. */
export function crewsText({ line, stations }: BalanceAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const rows = stations.flatMap(({ id, crew, tasks, persons, starts }) => {
    if (persons === null) return [];
    return Array.from({ length: crew }, (_, at) => at + 1).map((person) => {
      const own = tasks.flatMap((task, index) => {
        const others = persons[index]!.filter((each) => each !== person);
        if (others.length === persons[index]!.length) return [];
        const joint = others.length === 0 ? "" : ` with ${others.join(" and ")}`;
        return [`${visibleText(line.tasks[task]!.id)} at ${show(starts[index]!)}${joint}`];
      });
      return [person === 1 ? id : "", String(person), own.join(", ")];
    });
  });
  if (rows.length === 0) return "";
  const columns: Column[] = [
    { head: "station" },
    { head: "person", align: "right" },
    { head: "tasks and when they start", wraps: true, narrowest: 8 },
  ];
  return formatTable(columns, rows, look.width);
}

/**
 * Hand work and walking where there is more than hand work; with machines, or people who share a unit or work it from its sides, what machines run by themselves, how
 * long a unit stands at a place, and how long of that its busiest person does nothing on it.
 */
export function kindsOfTimeText({ line, stations }: BalanceAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const shown = kindsShown(stations);
  if (shown.length === 0) return "";
  const rows = stations.map((station) => [station.id, ...shown.map(([, of]) => show(of(station)!))]);
  const columns = [{ head: "station" }, ...shown.map(([head]): Column => ({ head, align: "right" }))];
  return orElse(formatTable(columns, rows, look.width), look.width, () =>
    formatTable(
      [{ head: "station" }, { head: "of a unit", wraps: true, narrowest: 8 }],
      stations.map((station) => [station.id, timesOf(station, shown, show).join(", ")]),
      look.width,
    ),
  );
}

/** "hands 110 s", "machine 37.5 s", "dwell 119 s": hands, and whatever else there is. */
const timesOf = (
  station: StationMeasures,
  shown: ReturnType<typeof kindsShown>,
  show: ShowTime,
): readonly string[] =>
  shown.flatMap(([kind, of]) => {
    const time = of(station)!;
    return kind === "hands" || signOf(time) > 0 ? [`${kind} ${show(time)}`] : [];
  });

/** "S11: hands 110 s, machine 37.5 s, waiting 9.5 s, dwell 119 s", for each station with more than hand work. */
export function kindsOfTimeWords({ line, stations }: BalanceAnswer): string[] {
  const show = showTimesIn(line.unit);
  const shown = kindsShown(stations);
  const hasOther = ({ walkingTime, machineTime, persons }: StationMeasures) =>
    persons !== null || [walkingTime, machineTime].some((time) => time !== null && signOf(time) > 0);
  return stations
    .filter(hasOther)
    .map((station) => `${station.id}: ${timesOf(station, shown, show).join(", ")}`);
}

/** The kinds of time that any of the stations has. */
function kindsShown(
  stations: readonly StationMeasures[],
): [string, (station: StationMeasures) => Ratio | null][] {
  const kinds: [string, (station: StationMeasures) => Ratio | null][] = [
    ["hands", ({ manualTime }) => manualTime],
    ["walking", ({ walkingTime }) => walkingTime],
    ["machine", ({ machineTime }) => machineTime],
  ];
  const stays: [string, (station: StationMeasures) => Ratio | null][] = [
    ["waiting", ({ waitingTime }) => waitingTime],
    ["dwell", ({ dwell }) => dwell],
  ];
  const isStaying = stations.some(
    ({ persons, sides, machineTime }) => persons !== null || sides !== null || machineTime !== null,
  );
  return [
    ...kinds.filter(([, of]) => stations.some((station) => of(station) !== null)),
    ...(isStaying ? stays : []),
  ];
}

/** Average and peak of stations with work that is not done on every unit. */
export function seldomText({ line, stations }: BalanceAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const rows = stations.flatMap((station) =>
    station.peakTime === null
      ? []
      : [[station.id, show(station.stationTime), show(station.peakTime), seldomTasks(line, station, show)]],
  );
  if (rows.length === 0) return "";
  const columns: Column[] = [
    { head: "station" },
    { head: "average", align: "right" },
    { head: "peak", align: "right" },
    { head: "not on every unit", wraps: true, narrowest: 7 },
  ];
  return formatTable(columns, rows, look.width);
}

function seldomTasks(line: BalanceAnswer["line"], { tasks }: StationMeasures, show: ShowTime): string {
  const words = tasks.flatMap((task) => {
    const { id, every, load } = line.tasks[task]!;
    return every === 1 ? [] : [`${visibleText(id)} on 1 unit in ${every}, ${show(load)} on average`];
  });
  return words.join("; ");
}

/** Columns of a terminal that have room for every figure of a unit that takes longer. */
const ALL_FIGURES = 70;

const LONGER =
  "Drift of units that stand or keep equipment is counted with what machines run and with waiting; the drift allowance of the models counts the work of hands alone.";

/** Units of a rare model, or with work of every so many units, that take a station longer than its working time. */
export function peaksText({ line, stations, shown }: ShownBalance, look: Look): string {
  const isWide = look.width >= ALL_FIGURES;
  const rows = stations.flatMap(({ id }, at) =>
    shown.needs[at]!.peaks.flatMap((peak) =>
      peak.severity === null ? [] : [[id, ...peakCells(line, peak, isWide)]],
    ),
  );
  if (rows.length === 0) return "";
  const ifWide = (column: Column): Column[] => (isWide ? [column] : []);
  const columns: Column[] = [
    { head: "station" },
    { head: "units", wraps: true, narrowest: 8 },
    ...ifWide({ head: "time", align: "right" }),
    { head: "over", align: "right" },
    { head: "caught up in", breaks: !isWide },
    ...ifWide({ head: "drift", align: "right" }),
  ];
  const isLonger = shown.needs.some(({ peaks }) =>
    peaks.some(({ severity, by }) => severity !== null && by.kind !== "people"),
  );
  const table = formatTable(columns, rows, look.width);
  return isWide && isLonger ? `${table}${paragraph(LONGER, look)}` : table;
}

function peakCells(line: Line, peak: Peak, isWide: boolean): string[] {
  const { model, isOfAnyModel, every, tasks, time, over, catchUp, drift } = peak;
  const show = showTimesIn(line.unit);
  const work = every === 1 ? [] : [`1 in ${every}: ${tasks.map((task) => line.tasks[task]!.id).join(", ")}`];
  const by =
    peak.by.kind === "people" ? [] : peak.by.kind === "dwell" ? ["standing"] : [`keeping ${peak.by.name}`];
  const of = every > 1 && isOfAnyModel ? [] : (line.models[model]?.id ?? []);
  const units = visibleText([...work, of, ...by].flat().join(", "));
  const each = catchUp?.spare ? ` at ${show(catchUp.spare)}` : "";
  const after = catchUp === null ? "not before the next" : `${countOf(catchUp.units, "unit")}${each}`;
  if (!isWide) return [units, show(over), after];
  return [units, show(time), show(over), after, drift === null ? "no end" : show(drift)];
}
