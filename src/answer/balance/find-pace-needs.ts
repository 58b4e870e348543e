import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { cycleOfDwell, cycleOfPeople } from "../../plan/figures/cycle.js";
import { machinesAt } from "../../plan/figures/machines.js";
import { workingTime } from "../../plan/figures/working-time.js";
import type { Plan, Station } from "../../plan/plan.js";
import { postOf, postsOf } from "../../plan/post.js";
import { modelTime } from "../../plan/station-schedule.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, larger, multiply, ONE, ratio, ZERO } from "../../time/ratio.js";
import { showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";

/** Why a plan that sets its own pace is worked more slowly than its stations could: what a model takes, or what a machine runs. */
export function findPaceNeeds(line: Line, pace: Pace, plan: Plan): Finding[] {
  const own = postsOf(line, pace, plan)
    // At sides people wait for each other.
    .map((post, at) =>
      larger(cycleOfPeople(post), plan.stations[at]!.sides === null ? ZERO : cycleOfDwell(post)),
    )
    .reduce(larger, ZERO);
  if (compare(own, pace.lineCycle) >= 0) return [];
  const [could, needed] = showTimesApart(line.unit, own, pace.lineCycle);
  const stations = `the stations could keep a cycle of ${could}`;
  const note = (who: "models" | "machines", station: Station, why: string) =>
    finding({
      rule: `pace-of-${who}`,
      severity: "note",
      message: `${stations}; the ${who} need a line cycle of ${needed}: ${why}`,
      file: line.file,
      station: station.id,
      fact: { kind: "pace-need", who },
    });
  return plan.stations.flatMap((station) => [
    ...modelsAt(line, pace, station).map((why) => note("models", station, why)),
    ...equipmentAt(line, pace, station).map((why) => note("machines", station, why)),
  ]);
}

/** Models that take all that they may of a station at the pace. */
function modelsAt(line: Line, pace: Pace, station: Station): string[] {
  const overload = line.modelOverload;
  if (overload === null) return [];
  const show = showTimesIn(line.unit);
  const working = workingTime(postOf(line, pace, station), pace.lineCycle);
  const most = multiply(working, add(ONE, overload));
  return line.models.flatMap(({ id }, model) => {
    const time = modelTime(line, station, model);
    if (compare(time, most) !== 0) return [];
    const limit = `the working time of ${show(working)}`;
    const above =
      compare(overload, ZERO) === 0
        ? `may not be above ${limit}`
        : `may be ${percent(overload, 4)} above ${limit}`;
    return [`${id} takes ${show(time)} at ${station.id}, and ${above}`];
  });
}

/** Counted machines that are busy all the time at the pace. */
function equipmentAt(line: Line, pace: Pace, station: Station): string[] {
  const show = showTimesIn(line.unit);
  return machinesAt(line, pace, station).flatMap(({ name, busy, needed }) => {
    const count = line.equipment.get(name ?? "");
    const isFull = compare(busy, multiply(ratio(needed), pace.lineCycle)) === 0;
    if (count === undefined || !isFull) return [];
    const [what, runs] =
      needed === 1 ? [name, "is loaded and runs"] : [`${needed} x ${name}`, "are loaded and run"];
    return [
      `${what} at ${station.id} ${runs} ${show(busy)} for a unit, and ${count} ${count === 1 ? "exists" : "exist"}`,
    ];
  });
}
