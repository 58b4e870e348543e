import type { Line } from "../line/line.js";
import { add, compare, larger, type Ratio, ratio } from "../time/ratio.js";
import { type Cost, costOf, PEOPLE_FIRST } from "./cost.js";
import { exactLevel } from "./exact-level.js";
import { type CycleReason, cycleReason } from "./explain/cycle-facts.js";
import type { WorkLimits } from "./lay-out-work.js";
import { levelStations } from "./level/level-stations.js";
import { levelWork } from "./level/level-work.js";
import { fromParts, isCountedExactly } from "./parts.js";
import type { SearchEnd } from "./search/run-search.js";
import { asksTimeOnly } from "./search/task-rules.js";
import { verifyLimitBound } from "./verify-limit-bound.js";
import { type Watch, watchTimes } from "./watch-times.js";
import { type BlockPlan, mostOfStation, type Work } from "./work.js";

/** A plan whose slowest station is as fast as could be found, with as many people and stations. */
export interface EvenLoads {
  readonly plan: BlockPlan;
  /** The cycle of the plan, handling included, in microseconds. */
  readonly slowest: Ratio;
  /** No plan with as many people and stations has a shorter one, and why. */
  readonly bound: Ratio;
  readonly reason: CycleReason;
  readonly outcome: "proved" | "found";
  /** A shorter cycle is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within: bigint | null;
  readonly smoothness: "proved" | "found";
  readonly nodes: number;
  readonly ended: Exclude<SearchEnd, "first">;
}

/** Evens out a plan without more people or stations: first the shortest cycle, then the smoothest loads at it. */
export async function evenLoads(
  line: Line,
  limits: WorkLimits,
  work: Work,
  plan: BlockPlan,
  nodes: number,
  checkpoint: Watch,
): Promise<EvenLoads> {
  const watch = watchTimes(line, checkpoint, "even loads");
  if (asksTimeOnly(work)) return evenAlike(line, limits, work, plan, nodes, watch);
  const level = await levelWork(line, limits, plan, asGoodAs(costOf(plan)), nodes, watch);
  const ended = level.ended === "first" ? "nodes" : level.ended;
  return { ...level, smoothness: "found", ended };
}

function asGoodAs(cost: Cost) {
  return {
    aim: PEOPLE_FIRST,
    ceiling: { ...cost, stations: cost.stations + 1 },
    mostPeople: cost.people,
  } as const;
}

/** Where stations are asked nothing but time, whole plans are shaken as well, and the proof has a certificate. */
async function evenAlike(
  line: Line,
  { pace }: WorkLimits,
  work: Work,
  plan: BlockPlan,
  nodes: number,
  watch: ReturnType<typeof watchTimes>,
): Promise<EvenLoads> {
  const limit = mostOfStation(work);
  const tasksOf = (blocks: readonly number[]) => blocks.flatMap((block) => work.members[block]!);
  const blockOf = new Map(work.members.map(([task], block) => [task!, block]));
  const times = line.tasks.map((_, task) => Math.min(work.loads[blockOf.get(task)!]!, limit));
  const problem = { times, limit, before: line.before };
  const level = await levelStations(
    problem,
    plan.map(({ blocks }) => tasksOf(blocks)),
    { nodes },
    watch,
  );
  const wrong = verifyLimitBound(times, line.before, level.certificate);
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
  const even = level.stations.map((tasks, position) => {
    return { position, blocks: tasks.map((task) => blockOf.get(task)!), places: 1, crew: 1 };
  });
  const { nodes: used, ended } = level;
  // Of rounded loads the smoothest plan is not always that of true ones.
  const smoothness = isCountedExactly(line) ? level.smoothness : "found";
  const common = { plan: even, smoothness, nodes: used, ended };
  const withHandling = (time: Ratio) => add(time, ratio(pace.handling));
  // A task alone over the limit counts as a full station in the search; its own time is then the slowest there can be.
  const loads = line.tasks.map(({ load }) => load);
  const time = loads.reduce(larger);
  if (compare(time, fromParts(line, level.slowest)) > 0) {
    const task = loads.findIndex((load) => compare(load, time) === 0);
    const cycle = withHandling(time);
    return {
      ...common,
      slowest: cycle,
      bound: cycle,
      reason: { kind: "longest-task", task: { task, time } },
      outcome: "proved",
      within: null,
      smoothness: "found",
    };
  }
  const { slowest, bound, outcome, within } = exactLevel(line, level);
  return {
    ...common,
    slowest: withHandling(slowest),
    bound: withHandling(bound),
    reason: cycleReason(line, level.certificate),
    outcome,
    within,
  };
}
