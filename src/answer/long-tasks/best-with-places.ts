import type { Line } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { findImpossibleTasks } from "../../solve/station-problem.js";
import type { Pace } from "../../time/pace.js";
import { balanceChanged, type ChangedLine } from "./changed-line.js";
import { RoomForTasks } from "./room-for-tasks.js";
import { balanceWithPlaces } from "./with-places.js";

/** Parallel places for every task that no station can hold, on a line without shop-floor rules. */
export interface BestWithPlaces {
  /** The fewest people; of as many, the plan where each such task has a station of its own. */
  readonly best: ChangedLine;
  /** The places that every station may have in `best`; null where only the stations of these tasks have more than one. */
  readonly everywhere: number | null;
  /** With places at every station as many people need fewer stations than in `best`; null where they do not. */
  readonly shorter: { readonly stations: number; readonly maxPlaces: number } | null;
}

/** Searches that share the partial plans allowed with the one for places at every station. */
const SEARCHES = 4;
const LEAST_NODES = 1_000;

/**
 * Places at the stations of tasks that are too long, or at every station of the line: these need fewer people where work beside such
 * a task fills its places.
 */
export async function bestWithPlaces(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<BestWithPlaces> {
  const room = new RoomForTasks(line, pace, options.strictLimit);
  const tooLong = findImpossibleTasks(line, pace, options.strictLimit);
  const { plan, balance } = await balanceWithPlaces(line, pace, options);
  const maxPlaces = Math.max(...tooLong.map((at) => room.placesFor(at)));
  const nodes = options.nodes === null ? null : Math.max(LEAST_NODES, Math.floor(options.nodes / SEARCHES));
  const search = { ...options, nodes, method: "best", level: false, explain: false };
  const everywhere = await balanceChanged({ ...line, maxPlaces }, pace, search);
  // A station of its own for each such task is one choice of many: only the wider search proves that none is better.
  const outcome = balance.proved && everywhere.outcome === "proved" ? "proved" : "found";
  const own: ChangedLine = { line, pace, plan, outcome, obstacles: null, scarce: [] };
  if (everywhere.plan === null) return { best: own, everywhere: null, shorter: null };
  const people = peopleOf(everywhere.plan) - peopleOf(plan);
  if (people < 0) return { best: everywhere, everywhere: maxPlaces, shorter: null };
  const stations = everywhere.plan.stations.length;
  const isShorter = people === 0 && stations < plan.stations.length;
  return { best: own, everywhere: null, shorter: isShorter ? { stations, maxPlaces } : null };
}
