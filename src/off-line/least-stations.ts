import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import type { Watch } from "../solve/watch-times.js";
import type { Pace } from "../time/pace.js";
import { balanceLine } from "./balance-rest.js";
import { withoutTasks } from "./without-tasks.js";

/** How few stations a line can do with. */
export interface LeastStations {
  /** Proved: none has fewer; where rules count people first, none of so few people. */
  readonly bound: number;
  /** A plan with so many exists. */
  readonly found: number;
}

/** The fewest stations of what the benches of a plan leave on the line; null where no plan was found for that. */
export async function leastStations(
  line: Line,
  pace: Pace,
  { benches = [] }: Plan,
  options: { readonly nodes: number; readonly checkpoint: Watch },
): Promise<LeastStations | null> {
  const taken = new Set(benches.flatMap(({ tasks }) => tasks));
  const { plan, outcome, least } = await balanceLine(withoutTasks(line, [...taken]), pace, {
    ...options,
    method: "best",
    strictLimit: false,
    level: false,
    explain: false,
  });
  if (plan === null || least === null) return null;
  const found = plan.stations.length;
  return { bound: outcome === "proved" ? found : Math.min(found, least.stations), found };
}
