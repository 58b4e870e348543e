import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import { visibleText } from "../../findings/visible-text.js";
import type { StationMeasures } from "../../plan/measure.js";
import type { Ratio } from "../../time/ratio.js";
import { type ShowTime, showTimesIn } from "../../time/show-in-unit.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** On a line with sides: who works where, and when each task starts. */
export function sidesText({ line, stations }: BalanceAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const rows = stations.flatMap(({ id, tasks, sides, starts }) => {
    if (sides === null || starts === null) return [];
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

/** Hand work, walking and what machines run by themselves, where the line has more than hand work. */
export function kindsOfTimeText({ line, stations }: BalanceAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const kinds: [string, (station: StationMeasures) => Ratio | null][] = [
    ["manual", ({ manualTime }) => manualTime],
    ["walking", ({ walkingTime }) => walkingTime],
    ["machine", ({ machineTime }) => machineTime],
  ];
  const shown = kinds.filter(([, of]) => stations.some((station) => of(station) !== null));
  if (shown.length === 0) return "";
  const rows = stations.map((station) => [station.id, ...shown.map(([, of]) => show(of(station)!))]);
  const columns = [{ head: "station" }, ...shown.map(([head]): Column => ({ head, align: "right" }))];
  return formatTable(columns, rows, look.width);
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
    { head: "not on every unit", wraps: true, narrowest: 8 },
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
