import type { Line } from "../../line/line.js";
import { add, compare, larger, type Ratio, subtract } from "../../time/ratio.js";
import { type CycleReason, cycleReason } from "../explain/cycle-facts.js";
import { layOutWork, type WorkLimits } from "../lay-out-work.js";
import { isCountedExactly, mostRounding, partsWithin } from "../parts.js";
import { mostStations } from "../search/cycle-problem.js";
import type { Checkpoint } from "../search/fewest-stations.js";
import { certificateOf } from "../search/least-limit.js";
import { mostStates, runSearchBelow, type SearchEnd } from "../search/run-search.js";
import { verifyLimitBound } from "../verify-limit-bound.js";
import type { BlockPlan } from "../work.js";
import { cycleOfBlocks } from "./cycle-of-work.js";
import { leastCycle } from "./least-cycle.js";
import { type LevelAnswer, levelPlan } from "./level-plan.js";
import { type LevelAim, LineCycles } from "./line-cycles.js";

/** A plan whose slowest station is as fast as could be found, no dearer than allowed. */
export interface LevelLine {
  /** Blocks of each station in an order of work. */
  readonly plan: BlockPlan;
  /** The cycle of the plan, handling included, in microseconds. */
  readonly slowest: Ratio;
  /** No plan that is as cheap has a shorter one, and why. */
  readonly bound: Ratio;
  readonly reason: CycleReason;
  readonly outcome: "proved" | "found";
  /** A shorter cycle is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within: bigint | null;
  readonly smoothness: "proved" | "found";
  readonly nodes: number;
  readonly ended: Exclude<SearchEnd, "first">;
}

/**
 * Evens out a plan of a line, whatever it asks of its stations: the shortest cycle first, then the smoothest loads at it.
 *
 * @param mostPeople of a plan that counts
 */
export async function levelLine(
  line: Line,
  limits: WorkLimits,
  plan: BlockPlan,
  aim: LevelAim & { readonly mostPeople: number },
  nodes: number,
  checkpoint: Checkpoint,
): Promise<LevelLine> {
  const base = layOutWork(line, limits);
  const most = { people: aim.mostPeople, stations: aim.ceiling.stations - 1 };
  const least = leastCycle(line, base, limits, most, false);
  const problem = new LineCycles(line, limits, aim, least.cycle, plan);
  const answer = await levelPlan(
    problem,
    plan,
    { nodes, memory: mostStates(base) },
    ({ nodes: used, best, bound }) =>
      checkpoint({ nodes: used, best: problem.inParts(best), bound: problem.inParts(bound) }),
  );
  const truly = isCountedExactly(line) ? least.cycle : leastCycle(line, base, limits, most, true).cycle;
  const level = await trueLevel(line, limits, aim, problem, answer, truly, nodes, checkpoint);
  return {
    plan: answer.plan,
    ...level,
    reason: reasonOf(line, problem, answer, least.reason),
    // Of rounded loads the smoothest plan is not always that of true ones.
    smoothness: isCountedExactly(line) && problem.time?.isAll ? answer.smoothness : "found",
    ended: answer.ended,
  };
}

/** What even loads come to with loads as they are, in microseconds. */
async function trueLevel(
  line: Line,
  limits: WorkLimits,
  { aim, ceiling }: LevelAim,
  problem: LineCycles,
  answer: LevelAnswer,
  least: Ratio,
  nodes: number,
  checkpoint: Checkpoint,
): Promise<Pick<LevelLine, "slowest" | "bound" | "outcome" | "within" | "nodes">> {
  const { cycle, outcome } = answer;
  const common = { nodes: answer.nodes, within: null };
  if (isCountedExactly(line)) {
    const slowest = problem.timeOf(cycle);
    return {
      ...common,
      slowest,
      bound: outcome === "proved" ? slowest : problem.timeOf(answer.bound.cycle),
      outcome,
    };
  }
  const slowest = cycleOfBlocks(line, problem.workAt(cycle), limits, answer.plan);
  const rounding = mostRounding(line);
  // With loads rounded up a cycle is ruled out that plans of true loads may keep; no station of any plan grew by more than that.
  let bound = larger(
    least,
    problem.isOnlyLimit(cycle) ? subtract(problem.timeOf(answer.bound.cycle), rounding) : least,
  );
  const below = subtract(slowest, rounding);
  if (outcome === "proved" && compare(bound, below) < 0 && answer.nodes < nodes) {
    // Nor does a limit of the line let a plan of true loads by: what they cannot keep is asked with loads rounded down.
    const tried = layOutWork(line, { ...limits, slowest: below }, "down");
    const budget = { nodes: nodes - answer.nodes, memory: mostStates(tried), firstOnly: true } as const;
    const asked = await runSearchBelow(tried, ceiling, aim, budget, ({ nodes: more }) =>
      checkpoint({ nodes: answer.nodes + more, best: problem.inParts(cycle), bound: problem.inParts(cycle) }),
    );
    common.nodes += asked.nodes;
    if (asked.plan === null && asked.ended === "proved") bound = larger(bound, below);
  }
  const gap = subtract(slowest, bound);
  const isMet = gap.num <= 0n;
  const isWithin = !isMet && outcome === "proved" && compare(gap, add(rounding, rounding)) <= 0;
  return {
    ...common,
    slowest,
    bound: isMet ? slowest : bound,
    outcome: isMet ? "proved" : "found",
    within: isWithin ? partsWithin(slowest, gap) : null,
  };
}

/** Why no plan has a shorter cycle; where only time is asked, by a certificate whose arithmetic was done again. */
function reasonOf(line: Line, problem: LineCycles, { bound }: LevelAnswer, ofWork: CycleReason): CycleReason {
  const { time } = problem;
  if (time?.isAll || (time !== null && problem.isByTask && bound.kind === "stations")) {
    const { times, before, limitAt } = time;
    const certificate = certificateOf(bound, times, mostStations(problem), limitAt);
    const wrong = time.isAll ? verifyLimitBound(times, before, certificate) : [];
    if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
    return cycleReason(line, certificate);
  }
  if (bound.kind === "work") return ofWork;
  return { kind: "rules-search", nodes: bound.kind === "search" ? bound.nodes : 0 };
}
