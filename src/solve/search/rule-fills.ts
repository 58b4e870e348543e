import { costOf, isCheaper } from "../cost.js";
import { fillStations } from "../fill-stations.js";
import { rankTasks } from "../rank-tasks.js";
import { RULES } from "../rules/register.js";
import { type BlockPlan, blocksByTask, turnPlan, turnWork, type Work } from "../work.js";
import type { CycleProblem } from "./cycle-problem.js";

/** Fills stations by every rule at any cycle: from both ends of the line where positions do not matter, else from the front. */
export class RuleFills {
  /** Orders of tasks by every rule, from the front and from the back. */
  private orders: readonly (readonly (readonly number[])[])[] | null = null;

  constructor(private readonly problem: CycleProblem) {}

  /** The first plan that counts, or null where no rule finds one. */
  fill(cycle: bigint): BlockPlan | null {
    const { ceiling, aim } = this.problem;
    const work = this.problem.workAt(cycle);
    const ends = work.isPositional ? [work] : [work, turnWork(work)];
    this.orders ??= ends.map(ordersOf);
    for (const [at, end] of ends.entries()) {
      for (const order of this.orders[at]!) {
        const plan = fillStations(end, order);
        if (plan !== null && isCheaper(costOf(plan), ceiling, aim))
          return end === work ? plan : turnPlan(plan);
      }
    }
    return null;
  }
}

/** One order of the tasks a rule; of equals the smaller number of a task goes first, whatever number its block has. */
function ordersOf(work: Work): number[][] {
  const { blocks, times, before } = blocksByTask(work);
  return RULES.map((rule) =>
    rankTasks(rule, { times, before }).order.flatMap((at) => work.members[blocks[at]!]!),
  );
}
