import type { ShownBalance, StationFacts } from "../../answer/balance/shown-balance.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line, Task } from "../../line/line.js";
import type { LimitUse } from "../../plan/figures/limits-used.js";
import type { StationMeasures } from "../../plan/measure.js";
import type { NamedPerson } from "../../plan/who-stands-where.js";
import { decimal } from "../../time/show-values.js";
import { taskCautions } from "../cautions.js";
import { machineWords } from "../words/obstacle-words.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** What stands and who works at the stations: zone, equipment, skills, and tasks that take several people at once. */
export function needsText({ line, stations, shown }: ShownBalance, look: Look): string {
  const rows = stations.flatMap((station, at) =>
    needsOf(line, station, shown.needs[at]!).map(([kind, what], row) => [
      row === 0 ? station.id : "",
      kind,
      visibleText(what),
    ]),
  );
  if (rows.length === 0) return "";
  const columns = [{ head: "" }, { head: "" }, { head: "", wraps: true, narrowest: 8 }];
  return formatTable(columns, rows, look.width);
}

function needsOf(
  line: Line,
  station: StationMeasures,
  { zone, machines, people }: StationFacts,
): [string, string][] {
  const equipment = station.equipment ?? [];
  const skills = station.skills ?? [];
  const shared = station.tasks.map((task) => line.tasks[task]!).filter((task) => task.people > 1);
  return [
    ...list("zone", zone === null ? [] : [zone]),
    ...list(
      "equipment",
      equipment.map(({ name, units }) => (units === 1 ? name : `${units} x ${name}`)),
    ),
    ...machines.map((need): [string, string] => ["machines", machineWords(line.unit, need)]),
    ...list("skills", skills),
    ...list("limits", (station.uses ?? []).map(useWords)),
    ...list(
      "people",
      people.length === 0
        ? []
        : [`for example ${people.map(personWords).join(", ")}${crewWords(station, people)}`],
    ),
    ...shared.map(togetherRow),
  ];
}

const list = (kind: string, what: readonly string[]): [string, string][] =>
  what.length === 0 ? [] : [[kind, what.join(", ")]];

/** "shelf 0.9 of 1.2 m", "lifted-mass 640 of 2000 kg for a person in the longest shift". */
function useWords({ name, used, most, unit, per }: LimitUse): string {
  return `${name} ${decimal(used, 3)} of ${[decimal(most, 3), unit].join(" ").trim()}${FOR[per]}`;
}

const FOR: Readonly<Record<LimitUse["per"], string>> = {
  station: "",
  person: " for a person",
  "station-and-shift": " in the longest shift",
  "person-and-shift": " for a person in the longest shift",
};

/** "Ann as person 1", "Eve at the left". */
function personWords({ name, seat }: NamedPerson): string {
  if (seat === null) return name;
  return typeof seat === "number" ? `${name} as person ${seat}` : `${name} at the ${seat}`;
}

/** "; the other person needs no skill", "; the other 2 people of each place need no skill". */
function crewWords({ operators, places }: StationMeasures, { length }: readonly NamedPerson[]): string {
  if (operators === length) return "";
  const others = (operators - length) / places;
  // Places may have their skills by different numbers of people.
  if (!Number.isInteger(others)) return `; the other ${operators - length} people need no skill`;
  const who = others === 1 ? "person" : `${others} people`;
  return `; the other ${who}${places === 1 ? "" : " of each place"} ${others === 1 ? "needs" : "need"} no skill`;
}

function togetherRow(task: Task): [string, string] {
  return [`${task.people} at once`, [task.id, ...taskCautions(task)].join("; ")];
}
