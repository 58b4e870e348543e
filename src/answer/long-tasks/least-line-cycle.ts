import type { Line } from "../../line/line.js";
import { handlingAt } from "../../line/passes.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { rankedTasks } from "../../solve/balance.js";
import { PEOPLE_FIRST } from "../../solve/cost.js";
import { fillStations } from "../../solve/fill-stations.js";
import { layOutWork, type WorkLimits } from "../../solve/lay-out-work.js";
import { cycleOf, cycleOfBlocks } from "../../solve/level/cycle-of-work.js";
import { modelLoad } from "../../solve/model-load.js";
import { isCountedExactly } from "../../solve/parts.js";
import { rankTasks } from "../../solve/rank-tasks.js";
import { RULES } from "../../solve/rules/register.js";
import { runSearchBelow } from "../../solve/search/run-search.js";
import { timeHeld } from "../../solve/time-held.js";
import { toPlan } from "../../solve/to-plan.js";
import { type BlockPlan, kindAt, type Work } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  compare,
  divide,
  floor,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";

/** The shortest line cycle at which a line has a plan, in microseconds. */
export interface LeastLineCycle {
  readonly lineCycle: Ratio;
  /**
   * "proved": no plan keeps a line cycle that is shorter by a microsecond or more; "found": whether one does is not known; "none":
   * there is no plan even at `lineCycle`, at which no time matters any more; "open": no plan was found at any line cycle.
   */
  readonly outcome: "proved" | "found" | "none" | "open";
}

/**
 * Looks for the shortest line cycle at which a plan keeps the rules of the line: half-way between one that has none and one that
 * has, down to what the plan found there needs.
 *
 * @param from no plan has a shorter one, in microseconds
 */
export async function leastLineCycle(
  line: Line,
  pace: Pace,
  from: Ratio,
  options: Options,
): Promise<LeastLineCycle> {
  const search = new CycleSearch(line, pace, options);
  if ((await search.below(from)) !== null) return { lineCycle: from, outcome: "proved" };
  const widest = larger(from, widestOf(line, pace));
  let least = await search.below(widest);
  if (least === null)
    return search.isProved(widest)
      ? { lineCycle: widest, outcome: "none" }
      : { lineCycle: from, outcome: "open" };
  let most = from;
  while (search.goesOn) {
    const closer = larger(subtract(least, MICROSECOND), from);
    const just = await search.below(closer);
    if (just === null) return { lineCycle: least, outcome: search.isProved(closer) ? "proved" : "found" };
    least = just;
    const middle = halfWay(most, least, MICROSECOND);
    if (compare(middle, most) <= 0) continue;
    const half = await search.below(middle);
    if (half === null) most = middle;
    else least = half;
  }
  return { lineCycle: least, outcome: "found" };
}

/** The same pace with another line cycle. */
export function slowed(pace: Pace, lineCycle: Ratio): Pace {
  const workingTime = subtract(lineCycle, ratio(pace.handling));
  return { ...pace, lineCycle, workingTime, stationLimit: multiply(workingTime, pace.planTo) };
}

type Options = Pick<BalancingOptions, "nodes" | "strictLimit" | "checkpoint">;

class CycleSearch {
  /** Line cycles for which the search came to its end. */
  private readonly ruledOut = new Set<string>();
  private readonly rankings: readonly (readonly number[])[];
  private nodes: number;

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly options: Options,
  ) {
    this.nodes = options.nodes ?? Number.MAX_SAFE_INTEGER;
    const ranked = rankedTasks(line);
    this.rankings = RULES.map((rule) => rankTasks(rule, ranked).order);
  }

  /** Partial plans are left to look at, and nobody stopped it. */
  get goesOn(): boolean {
    return this.nodes > 0;
  }

  /** What the plan found at a line cycle needs, at the most that cycle; null where none was found. */
  async below(lineCycle: Ratio): Promise<Ratio | null> {
    const { line } = this;
    const { strictLimit } = this.options;
    if (!this.goesOn) return null;
    const limits = { pace: slowed(this.pace, lineCycle), strictLimit, slowest: null, free: false };
    const problem = layOutWork(line, limits);
    const plan = this.filled(problem) ?? (await this.searched(problem, lineCycle));
    if (plan === null) return null;
    const needed = this.neededFor(problem, limits, plan);
    if (compare(needed, lineCycle) >= 0) return lineCycle;
    const faults = verifyPlan(line, slowed(this.pace, needed), toPlan(line, problem, plan), strictLimit);
    return faults.length === 0 ? needed : lineCycle;
  }

  /** A plan by any of the rules: a first one, wherever the rankings come through. */
  private filled(problem: Work): BlockPlan | null {
    for (const ranking of this.rankings) {
      const plan = fillStations(problem, ranking, null);
      if (plan !== null) return plan;
    }
    return null;
  }

  private async searched(problem: Work, lineCycle: Ratio): Promise<BlockPlan | null> {
    const { line, nodes, options } = this;
    const budget = { ...LIMITS, nodes: Math.min(LIMITS.nodes, nodes) };
    const bound = { time: lineCycle, unit: line.unit };
    const { plan, ended, ...used } = await runSearchBelow(
      problem,
      ANY,
      PEOPLE_FIRST,
      budget,
      ({ nodes: count }) => options.checkpoint({ nodes: count, best: "none", bound, what: "slower-pace" }),
    );
    this.nodes = ended === "time" || ended === "interrupted" ? 0 : nodes - used.nodes;
    if (ended === "proved" && (await this.isRuledOutRoundedDown(lineCycle)))
      this.ruledOut.add(keyOf(lineCycle));
    return plan;
  }

  /** Where loads are rounded, what is ruled out with more than they are is ruled out with less, too. */
  private async isRuledOutRoundedDown(lineCycle: Ratio): Promise<boolean> {
    const { line, options } = this;
    if (isCountedExactly(line)) return true;
    const { strictLimit } = options;
    const limits = { pace: slowed(this.pace, lineCycle), strictLimit, slowest: null, free: false };
    const problem = layOutWork(line, limits, "down");
    const budget = { ...LIMITS, nodes: Math.min(LIMITS.nodes, this.nodes) };
    const { ended, nodes } = await runSearchBelow(problem, ANY, PEOPLE_FIRST, budget, ({ nodes: count }) =>
      options.checkpoint({ nodes: count, best: "none", bound: null, what: "slower-pace" }),
    );
    this.nodes = ended === "time" || ended === "interrupted" ? 0 : this.nodes - nodes;
    return ended === "proved";
  }

  /** Whether a line cycle without a plan was ruled out, or only not solved in the partial plans allowed. */
  isProved(lineCycle: Ratio): boolean {
    return this.ruledOut.has(keyOf(lineCycle));
  }

  /** The shortest line cycle of a plan, with the part of the working time that stations keep free. */
  private neededFor(problem: Work, limits: WorkLimits, plan: BlockPlan): Ratio {
    const { line, pace } = this;
    const loaded = plan.map((station) => {
      const places = ratio(station.places);
      const tasks = station.blocks.flatMap((block) => problem.members[block]!);
      const handling = handlingAt(line, pace, tasks);
      const takes = subtract(multiply(cycleOf(line, problem, limits, station), places), handling);
      const timed = station.blocks.filter((block) => problem.loads[block]! > 0);
      const isAlone = timed.length === 1 && problem.mayStandAlone[timed[0]!]!;
      const planTo =
        isAlone && !this.options.strictLimit
          ? ONE
          : (line.floor[kindAt(problem, station.position)]?.planTo ?? pace.planTo);
      return divide(add(divide(takes, planTo), handling), places);
    });
    return loaded.reduce(larger, cycleOfBlocks(line, problem, { ...limits, free: true }, plan));
  }
}

/** A line cycle at which all of the work fits one place, whatever a model takes and a machine runs. */
function widestOf(line: Line, pace: Pace): Ratio {
  const shares = line.floor.flatMap(({ planTo }) => (planTo === null ? [] : [planTo]));
  const least = [pace.planTo, ...shares].reduce((one, two) => (compare(two, one) < 0 ? two : one));
  const all = [...line.tasks.keys()]
    .map((task) =>
      line.models.reduce((sum, _, model) => add(sum, modelLoad(line, task, model)), timeHeld(line, task)),
    )
    .reduce(add, ZERO);
  return add(divide(multiply(all, ratio(2)), least), handlingAt(line, pace, [...line.tasks.keys()]));
}

const keyOf = ({ num, den }: Ratio): string => `${num}/${den}`;

const MICROSECOND = ONE;
const ANY = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
const LIMITS = { nodes: 20_000, memory: 200_000, firstOnly: true } as const;

/** The middle between the two, rounded down to a multiple of the step. */
function halfWay(one: Ratio, two: Ratio, step: Ratio): Ratio {
  const steps = floor(divide(divide(add(one, two), ratio(2)), step));
  return ratio(steps * step.num, step.den);
}
