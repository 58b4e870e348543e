import { hoursOf } from "../../benches/bench-hours.js";
import { carriedShare } from "../../benches/bench-job.js";
import { unitsKept } from "../../benches/bench-machines.js";
import { jobOf } from "../../benches/bench-of-plan.js";
import { taktOfBench } from "../../benches/bench-post.js";
import { countShares } from "../../benches/count-shares.js";
import type { Line } from "../../line/line.js";
import { withoutTasks } from "../../line/without-tasks.js";
import type { Plan, Station } from "../../plan/plan.js";
import { skilledPlaces } from "../../plan/verify/skilled-places.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import { balanceLine } from "../off-line/balance-rest.js";
import { type Solved, type Staffed, solveBeside } from "../off-line/staff-beside.js";

/** How few stations a line can do with. */
export interface LeastStations {
  /** Proved: none has fewer; where rules count people first, none of so few people. */
  readonly bound: number;
  /** A plan with so many exists. */
  readonly found: number;
}

/**
 * The fewest stations of what the benches of a plan leave on the line, with the equipment and the people that they leave for it; null
 * where no plan was found for that.
 *
 * @param line with the time to take parts over where they join
 */
export async function leastStations(
  line: Line,
  pace: Pace,
  plan: Plan,
  options: { readonly nodes: number; readonly checkpoint: Watch },
): Promise<LeastStations | null> {
  const search = { ...options, method: "best", strictLimit: false, level: false, explain: false };
  const staffed = await solveBesideBenches(line, pace, plan, (each) => balanceLine(each, pace, search));
  if (staffed === null) return null;
  const { answer, everybody, outcome } = staffed;
  if (answer.plan === null || everybody.least === null || outcome === "infeasible" || outcome === "stopped")
    return null;
  const found = answer.plan.stations.length;
  return { bound: outcome === "proved" ? found : Math.min(found, everybody.least.stations), found };
}

/**
 * Solves what the benches of a plan leave on the line, with the equipment and the people that they leave for it; null where they leave
 * none of some equipment that it needs.
 *
 * @param line with the time to take parts over where they join
 */
export async function solveBesideBenches<Answer extends Solved>(
  line: Line,
  pace: Pace,
  { benches = [] }: Plan,
  solve: (rest: Line) => Promise<Answer>,
): Promise<Staffed<Answer> | null> {
  const taken = new Set(benches.flatMap(({ tasks }) => tasks));
  const equipment = equipmentBeside(line, pace, benches);
  const rest = taken.size === 0 ? line : withoutTasks({ ...line, equipment }, [...taken]);
  const isShort = [...equipment].some(
    ([name, left]) => left < (rest.tasks.some((task) => task.equipment.includes(name)) ? 1 : 0),
  );
  return isShort ? null : solveBeside(rest, skilledPlaces(line, benches), solve);
}

/** Counted equipment without what these benches keep. */
function equipmentBeside(line: Line, pace: Pace, benches: readonly Station[]): Map<string, number> {
  const counted = countShares(line);
  const kept = benches.map((bench) => {
    const job = jobOf(line, benches, bench);
    const share = carriedShare(line, job);
    const takt = taktOfBench(pace, { hours: hoursOf(line, job.terms.shifts), share });
    return { stations: [bench], takt, share };
  });
  return new Map(
    [...line.equipment].map(([name, count]) => [
      name,
      kept.reduce((left, bench) => left - unitsKept(counted, bench, name), count),
    ]),
  );
}
