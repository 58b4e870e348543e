import type { Line } from "../../src/line/line.js";
import { checkPlan } from "../../src/plan/check/check-plan.js";
import { readPlan } from "../../src/plan/file/read-plan.js";
import type { Plan } from "../../src/plan/plan.js";
import type { Pace } from "../../src/time/pace.js";

/** Whether `check` has no error for a plan without benches, written as a file. */
export function passesCheck(line: Line, pace: Pace, plan: Plan): boolean {
  const stations = plan.stations.map(({ id, tasks, places, sides }) => {
    const ids = tasks.map((task) => line.tasks[task]!.id);
    const atSides = sides && { sides: Object.fromEntries(ids.map((task, at) => [task, sides[at]])) };
    return { id, tasks: ids, places, ...atSides };
  });
  const reading = readPlan("plan.yaml", JSON.stringify({ format: "linepoise-plan/1", stations }), line);
  const asked = { line, pace, plan, reading, benches: [], least: null, fingerprints: [], lineFile: null };
  return checkPlan(asked).findings.every(({ severity }) => severity !== "error");
}
