import { countOf } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, ONE, ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { longTime } from "../../time/show-values.js";
import { carriersOfPlan } from "../figures/carriers.js";
import { type SlowingWait, slowingWaits } from "../figures/waits-in-line.js";
import type { Plan } from "../plan.js";
import { outputWords } from "./output-words.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** Waits that a line which moves together has too few stations for, so that it stops for its units and runs slower than its pace. */
export const findSlowingWaits = (line: Line, pace: Pick<Pace, "lineCycle">, plan: Plan): PlanFinding[] =>
  slowingWaits(line, pace, plan).map((slowing) => {
    const { wait, from, to, has, needs } = slowing;
    const [before, after] = [from, to].map((at) => plan.stations[at]!.id) as [string, string];
    const [first, task] = [line.tasks[wait.from]!, line.tasks[wait.to]!];
    const show = showTimesIn(line.unit);
    const carriers = carriersOfPlan(line, plan);
    const often =
      compare(carriers, ONE) > 0 ? `, and a carrier every ${show(divide(pace.lineCycle, carriers))}` : "";
    const cycle = `${show(pace.lineCycle)}${often}`;
    const words = [
      `${task.id} waits ${longTime(wait.wait)} for ${first.id}, and units that move together wait in the line`,
      `${after} stands ${countOf(has, "station")} after ${before}, and ${needs} are needed${unitsWords(line, slowing)} at a line cycle of ${cycle}`,
      `the line then ${slowerWords(line, pace, slowing)}`,
    ];
    const stated = needs > wait.stations ? `give the wait \`stations: ${needs}\`, or put` : "put";
    return planFinding({
      rule: "wait-in-line",
      severity: "warning",
      message: `${words.join("; ")}: ${stated} ${needs - has} more between ${before} and ${after}, empty or with work`,
      file: line.file,
      place: wait.place,
      task: task.id,
      station: after,
      amount: ratio(needs - has),
    });
  });

/** " for units of cargo", " for units with the work of every so many units"; empty where all units are held up. */
function unitsWords(line: Line, { models, isSeldom }: SlowingWait): string {
  const rare = isSeldom ? " with the work of every so many units" : "";
  if (models !== null) return ` for units of ${listOf(models.map((model) => line.models[model]!.id))}${rare}`;
  return isSeldom ? ` for units${rare}` : "";
}

function slowerWords(line: Line, { lineCycle }: Pick<Pace, "lineCycle">, { cycle }: SlowingWait): string {
  if (cycle === null) return "stops for them";
  const output = outputWords(line, cycle, lineCycle);
  return output === null
    ? `moves on every ${showTimesIn(line.unit)(cycle)} on average, no faster`
    : `makes at most ${output}`;
}
