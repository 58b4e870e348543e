import type { Line } from "../line/line.js";
import { cycleOfPlan } from "../plan/figures/cycle.js";
import type { Plan } from "../plan/plan.js";
import { postsOf } from "../plan/post.js";
import { compare, type Ratio } from "../time/ratio.js";
import { type Cost, STATIONS_FIRST } from "./cost.js";
import { drawOntoFloor } from "./draw-onto-floor.js";
import type { CycleReason } from "./explain/cycle-facts.js";
import { handledOnce, layOutWork, type WorkLimits, withoutPace } from "./lay-out-work.js";
import { type LevelLine, levelLine } from "./level/level-line.js";
import type { Checkpoint } from "./search/fewest-stations.js";
import { type CheapestPlan, mostStates, runSearchBelow } from "./search/run-search.js";
import { arrangeBlocks } from "./station/arrange-blocks.js";
import { toPlan } from "./to-plan.js";
import { type Watch, watchTimes } from "./watch-times.js";
import { mostAtOnce, type Work } from "./work.js";

/** The best that a fixed number of stations can do. */
export interface FixedStations {
  readonly count: number;
  readonly plan: Plan;
  /** The cycle of the plan, handling included, in microseconds. */
  readonly cycle: Ratio;
  /** No plan with so many stations has a shorter one, and why. */
  readonly cycleBound: Ratio;
  readonly kind: CycleReason["kind"];
  readonly reason: CycleReason;
  readonly proved: boolean;
  /** A shorter cycle is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within: bigint | null;
  readonly nodes: number;
  readonly ended: LevelLine["ended"];
}

/** No plan with so many stations: proved that none keeps what is asked of them, or none found before a limit. */
export interface NoFixedStations {
  readonly plan: null;
  readonly isProved: boolean;
}

/**
 * The plan with `count` stations of one place each, from 1 to the number of tasks, whose longest station is shortest, and the smoothest
 * of those; fewer stations may be in use where the floor wants it so. No limit of the line counts: the plan sets its own pace.
 */
export async function fixStations(
  line: Line,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations | NoFixedStations> {
  const limits = withoutPace(line);
  const once = handledOnce(line, limits);
  if (once !== null) {
    const eased = await fixWithin(line, once, count, nodes, checkpoint);
    if (eased.plan === null) return eased;
    const isTrue = compare(cycleOfPlan(postsOf(line, limits.pace, eased.plan)), eased.cycle) <= 0;
    if (isTrue) return eased;
  }
  return fixWithin(line, limits, count, nodes, checkpoint);
}

async function fixWithin(
  line: Line,
  limits: WorkLimits,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations | NoFixedStations> {
  const work = layOutWork(line, limits);
  const watch = watchTimes(line, checkpoint, { stations: count });
  const ceiling = { people: 0, stations: count + 1 };
  const first = await firstPlan(work, ceiling, nodes, watch);
  if (first.plan === null) return { plan: null, isProved: first.ended === "proved" };
  const crew = Math.max(...work.people, mostAtOnce(work));
  const aim = { aim: STATIONS_FIRST, ceiling, mostPeople: count * crew };
  const level = await levelLine(line, limits, first.plan, aim, nodes, watch);
  const laidOut = layOutWork(line, { ...limits, slowest: level.slowest });
  return {
    count,
    plan: toPlan(line, laidOut, drawOntoFloor(laidOut, level.plan), true),
    cycle: level.slowest,
    cycleBound: level.bound,
    kind: isOfRules(level.reason) ? "search" : level.reason.kind,
    reason: level.reason,
    proved: level.outcome === "proved",
    within: level.within,
    nodes: first.nodes + level.nodes,
    ended: level.ended,
  };
}

/** What the rules of a line add up to counts as a search, whatever it is told by. */
const isOfRules = ({ kind }: CycleReason): boolean =>
  kind === "rules-search" || kind === "work-of-people" || kind === "model" || kind === "machine";

/** Everything at the first station where the rules allow it, as no time limits it; else any plan with as few stations as that. */
function firstPlan(
  work: Work,
  ceiling: Cost,
  nodes: number,
  watch: Checkpoint,
): Promise<Pick<CheapestPlan, "plan" | "ended" | "nodes">> {
  const atOne = arrangeBlocks(
    work,
    work.loads.map(() => 0),
  );
  if (atOne !== null) return Promise.resolve({ plan: atOne, ended: "first", nodes: 0 });
  const budget = { nodes, memory: mostStates(work), firstOnly: true } as const;
  return runSearchBelow(work, ceiling, STATIONS_FIRST, budget, ({ nodes: done, bound }) =>
    watch({ nodes: done, best: 0, bound: bound.stations }),
  );
}

/** The same by time and precedence alone, whatever else is asked of stations: nothing of that is at a bench. */
export async function fixByTime(
  line: Line,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations> {
  const fixed = await fixStations(byTimeAlone(line), count, nodes, checkpoint);
  if (fixed.plan === null) throw new Error("time alone always has a plan");
  return fixed;
}

/** The line with nothing that is asked of stations but that their tasks fit. */
function byTimeAlone(line: Line): Line {
  const nothing = { skills: [], equipment: [], uses: [], zone: null, stations: null, side: null } as const;
  return {
    ...line,
    tasks: line.tasks.map((task) => {
      return { ...task, ...nothing, people: 1, machineTime: 0, notBefore: null, notAfter: null };
    }),
    handling: 0,
    floor: [],
    together: [],
    apart: [],
    waits: [],
    equipment: new Map(),
    people: [],
    limits: [],
    holds: 1,
    maxCrew: 1,
    modelOverload: null,
  };
}
