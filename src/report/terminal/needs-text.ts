import { visibleText } from "../../findings/visible-text.js";
import type { Line, Task } from "../../line/line.js";
import { isPerPerson, isPerShift } from "../../line/parts/limits.js";
import type { BalanceAnswer } from "../../off-line/balance-answer.js";
import { busyMachines, machineNeed } from "../../plan/machine-busy.js";
import type { StationMeasures } from "../../plan/measure.js";
import type { LimitUse } from "../../plan/station-needs.js";
import { floorStationOf } from "../../plan/station-numbers.js";
import { whoStandsWhere } from "../../plan/who-stands-where.js";
import type { Pace } from "../../time/pace.js";
import { decimal } from "../../time/show-values.js";
import { taskCautions } from "../cautions.js";
import { machineWords } from "../words/obstacle-words.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** What stands and who works at the stations: zone, equipment, skills, and tasks that take several people at once. */
export function needsText({ line, pace, stations }: BalanceAnswer, look: Look): string {
  const who = whoStandsWhere(line, stations);
  const rows = stations.flatMap((station) =>
    needsOf(line, pace, station, who?.get(station.id) ?? []).map(([kind, what], at) => [
      at === 0 ? station.id : "",
      kind,
      visibleText(what),
    ]),
  );
  if (rows.length === 0) return "";
  const columns = [{ head: "" }, { head: "" }, { head: "", wraps: true, narrowest: 8 }];
  return formatTable(columns, rows, look.width);
}

/** @param who one way to staff its places; empty where no names are known */
function needsOf(
  line: Line,
  pace: Pace,
  station: StationMeasures,
  who: readonly string[],
): [string, string][] {
  const zone = floorStationOf(line, station.id)?.zone ?? null;
  const equipment = station.equipment ?? [];
  const skills = station.skills ?? [];
  const shared = station.tasks.map((task) => line.tasks[task]!).filter(({ people }) => people > 1);
  const machines = busyMachines(line, pace, station).filter(({ needed }) => needed > 1);
  return [
    ...list("zone", zone === null ? [] : [zone]),
    ...list(
      "equipment",
      equipment.map(({ name, units }) => (units === 1 ? name : `${units} x ${name}`)),
    ),
    ...machines.map((machine): [string, string] => [
      "machines",
      machineWords(line.unit, machineNeed(line, pace, machine)),
    ]),
    ...list("skills", skills),
    ...list("limits", (station.uses ?? []).map(useWords)),
    ...list("people", who.length === 0 ? [] : [`such as ${who.join(", ")}${crewWords(station)}`]),
    ...shared.map(togetherRow),
  ];
}

const list = (kind: string, what: readonly string[]): [string, string][] =>
  what.length === 0 ? [] : [[kind, what.join(", ")]];

/** "shelf 0.9 of 1.2 m", "lifted-mass 640 of 2000 kg for a person in the longest shift". */
function useWords({ name, used, most, unit, per }: LimitUse): string {
  const who = isPerPerson(per) ? " for a person" : "";
  const when = isPerShift(per) ? " in the longest shift" : "";
  return `${name} ${decimal(used, 3)} of ${[decimal(most, 3), unit].join(" ").trim()}${who}${when}`;
}

/** Skills are asked of one person of each place. */
function crewWords({ operators, places }: StationMeasures): string {
  const crew = operators / places;
  return crew === 1 ? "" : `; one of the ${crew} people${places === 1 ? "" : " of each place"}`;
}

function togetherRow(task: Task): [string, string] {
  return [`${task.people} at once`, [task.id, ...taskCautions(task)].join("; ")];
}
