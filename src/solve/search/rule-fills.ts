import { costOf, isCheaper } from "../cost.js";
import { fillStations } from "../fill-stations.js";
import { fillWork } from "../fill-work.js";
import type { StationProblem } from "../problem.js";
import { rankTasks } from "../rank-tasks.js";
import { RULES } from "../rules/register.js";
import type { BlockPlan } from "../work.js";
import { type CycleProblem, mostStations, type StationTimes } from "./cycle-problem.js";
import { layOut, turnRound } from "./instance.js";
import { listTasks } from "./state-store.js";

/** Fills stations by every rule at any cycle: from both ends of the line where only the time of stations counts. */
export class RuleFills {
  private readonly ends: readonly End[];
  /** Orders of blocks by every rule. */
  private rankings: readonly (readonly number[])[] | null = null;

  constructor(private readonly problem: CycleProblem) {
    const { time } = problem;
    this.ends = time?.isAll ? endsOf(time) : [];
  }

  /** The first plan that counts, or null where no rule finds one. */
  fill(cycle: bigint): BlockPlan | null {
    return this.problem.time?.isAll ? this.fillByTime(this.problem.time, cycle) : this.fillByRules(cycle);
  }

  private fillByTime(time: StationTimes, cycle: bigint): BlockPlan | null {
    const [limit, count] = [time.limitAt(cycle), mostStations(this.problem)];
    for (const { before, orders, fromBack } of this.ends) {
      for (const order of orders) {
        const stations = fillStations({ times: time.times, limit, before }, order);
        if (stations.length <= count) return time.planOf(fromBack ? stations.toReversed() : stations, null);
      }
    }
    return null;
  }

  private fillByRules(cycle: bigint): BlockPlan | null {
    const work = this.problem.workAt(cycle);
    const { ceiling, aim } = this.problem;
    this.rankings ??= ordersOf({ times: work.loads, limit: 1, before: work.before });
    for (const blocks of this.rankings) {
      const order = blocks.flatMap((block) => work.members[block]!);
      const plan = fillWork(work, order);
      if (plan !== null && isCheaper(costOf(plan), ceiling, aim)) return plan;
    }
    return null;
  }
}

interface End {
  readonly before: readonly (readonly number[])[];
  /** One order of units a rule. */
  readonly orders: readonly (readonly number[])[];
  readonly fromBack: boolean;
}

function endsOf({ times, before }: StationTimes): End[] {
  const problem = { times, limit: 1, before };
  const back = turnRound(problem);
  return [
    { before, orders: ordersOf(problem), fromBack: false },
    { before: back.before, orders: ordersOf(back), fromBack: true },
  ];
}

function ordersOf(problem: StationProblem): number[][] {
  const { size, words, followers, original } = layOut(problem);
  const rowOf = new Int32Array(size);
  for (const [row, task] of original.entries()) rowOf[task] = row;
  const list = (task: number) =>
    listTasks(followers, rowOf[task]! * words, size).map((each) => original[each]!);
  const ranked = { times: problem.times, before: problem.before, followers: { list } };
  return RULES.map((rule) => [...rankTasks(rule, ranked).order]);
}
