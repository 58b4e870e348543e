import { type Finding, finding } from "../findings/finding.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import type { BenchBeside } from "../plan/bench-beside.js";
import type { Plan } from "../plan/plan.js";
import { floorStationOf } from "../plan/station-numbers.js";
import { unitsAtPlace } from "../plan/units-at-place.js";
import { drawsFailures } from "./tested-units.js";

/** What a line says that a simulation does not follow, each with what it does instead. */
export function whatIsLeftOut(line: Line, plan: Plan, benches: readonly BenchBeside[]): Finding[] {
  const { file } = line;
  const { stations } = plan;
  const told = (severity: "warning" | "note", message: string) =>
    finding({ rule: "not-simulated", severity, message, file });
  const holding = stations.filter(({ id }) => (floorStationOf(line, id)?.holds ?? line.holds) > 1);
  const shared = holding.filter((station) => unitsAtPlace(line, station) === 1);
  const breaking = holding.filter(
    (station) =>
      !shared.includes(station) &&
      line.flow.breakdowns.some((each) => idKey(each.station) === idKey(station.id)),
  );
  return [
    ...shared.map(({ id }) =>
      told(
        "warning",
        `station ${id}: \`holds\` is not simulated where people share the work of a unit; each workplace holds one unit at a time`,
      ),
    ),
    ...breaking.map(({ id }) =>
      told(
        "note",
        `station ${id}: a breakdown stops one of the units that a workplace holds, not the others there`,
      ),
    ),
    ...(line.tasks.some(({ test }) => test !== null) && !drawsFailures(line, plan)
      ? [
          told(
            "note",
            "tests count as in a balance: tasks take as long as a good unit needs on average, and no single failure is drawn",
          ),
        ]
      : []),
    ...benches.flatMap((bench) => leftOutOf(line, plan, bench).map((words) => told("note", words))),
  ];
}

function leftOutOf(line: Line, plan: Plan, bench: BenchBeside): string[] {
  const { id, stations, joinsAt, room, isRoomStated, holds } = bench;
  const tasks = stations.flatMap((station) => station.tasks);
  if (!plan.stations.some((station) => station.tasks.some((task) => joinsAt.includes(task))))
    return [`bench ${id} is not simulated: its parts join at no station of the plan, and are always there`];
  const rooms = room === 1 ? "1 unit" : `${room} units`;
  return [
    ...(isRoomStated
      ? []
      : [`bench ${id}: no \`space\` is stated; the simulation gives it room for the parts of ${rooms}`]),
    ...(holds > 1 && stations.some((station) => unitsAtPlace(line, station, holds) === 1)
      ? [
          `bench ${id}: \`holds\` is not simulated where people share the work of a unit; each workplace holds one set of parts`,
        ]
      : []),
    ...(holds === 1 &&
    tasks.some((task) => line.tasks[task]!.equipment.some((name) => line.equipment.has(name)))
      ? [`bench ${id}: no workplace there waits for equipment; each has its own`]
      : []),
    ...(tasks.some((task) => line.tasks[task]!.test !== null)
      ? [`bench ${id}: tests count on average; no single failure is drawn there`]
      : []),
  ];
}
