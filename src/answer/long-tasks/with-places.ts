import type { Line } from "../../line/line.js";
import { type Plan, planOf } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { type Balance, type BalancingOptions, balance } from "../../solve/balance.js";
import { fromParts } from "../../solve/parts.js";
import { findImpossibleTasks, toStationProblem } from "../../solve/station-problem.js";
import type { Pace } from "../../time/pace.js";
import { RoomForTasks } from "./room-for-tasks.js";

/** A balance in which every task that no station can hold has a station of its own with parallel places. */
export interface BalanceWithPlaces {
  readonly plan: Plan;
  readonly balance: Balance;
}

/**
 * Balances the line with each task that no station can hold alone at as many places as it needs; units go to the places
 * in turn. The search sees such a task as a full station; the plan with its places is verified against the true times.
 */
export async function balanceWithPlaces(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<BalanceWithPlaces> {
  const tooLong = findImpossibleTasks(line, pace, options.strictLimit);
  const room = new RoomForTasks(line, pace, options.strictLimit);
  const fullStation = fromParts(line, toStationProblem(line, pace).limit);
  const capped = line.tasks.map((task, at) => (tooLong.includes(at) ? { ...task, load: fullStation } : task));
  const balanced = await balance({ ...line, tasks: capped }, pace, {
    ...options,
    method: "best",
    explain: false,
    level: false,
  });
  const stations = planOf(balanced.plan!.stations.map((station) => station.tasks)).stations.map((station) => {
    const long = station.tasks.find((task) => tooLong.includes(task));
    return long === undefined ? station : { ...station, places: room.placesFor(long) };
  });
  const plan = { stations };
  const most = Math.max(line.maxPlaces, ...stations.map(({ places }) => places));
  const faults = verifyPlan({ ...line, maxPlaces: most }, pace, plan, options.strictLimit);
  if (faults.length > 0) throw new Error(`the verifier refused parallel places: ${faults[0]!.message}`);
  return { plan, balance: balanced };
}
