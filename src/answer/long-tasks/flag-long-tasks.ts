import type { Line, Task } from "../../line/line.js";
import { peopleOfPlan } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import type { BalancingOptions } from "../../solve/balance.js";
import type { Pace } from "../../time/pace.js";
import type { LongTaskFlag } from "../off-line/off-line-flag.js";
import { HelpForTasks } from "./help-for-tasks.js";

/** Searches for each task: places or equipment, holds, parts, a bench, a slower pace, more overload. */
const ANSWERS = 6;
const LEAST_NODES = 1_000;
/** Of more tasks than these, the line is not balanced with each of them split or at a bench. */
const MOST_BALANCED = 8;

/**
 * Flags tasks that are too long for their stations, with the answers that exist, each as a balance that keeps the rules of the line, or
 * with what speaks against it.
 *
 * @param plan the balance with these tasks over the limit; null where no station can hold them
 */
export async function flagLongTasks(
  line: Line,
  pace: Pace,
  long: readonly number[],
  plan: Plan | null,
  options: BalancingOptions,
): Promise<LongTaskFlag[]> {
  if (long.length === 0) return [];
  const nodes =
    options.nodes === null
      ? null
      : Math.max(LEAST_NODES, Math.floor(options.nodes / (ANSWERS * long.length)));
  const search = { ...options, nodes, method: "best", level: false, explain: false };
  const help = new HelpForTasks(line, pace, long, search, plan === null);
  const roomy = plan === null ? await help.places() : null;
  const places = plan === null ? [help.placesAnswer(roomy)] : [];
  const then = roomy?.best.plan ?? null;
  const inAll = (each: Plan) => peopleOfPlan(line, pace, each).atATime;
  const holds = plan === null ? await help.holds() : null;
  const overload = plan === null ? await help.overload() : null;
  const flags: LongTaskFlag[] = [];
  for (const [at, task] of long.entries()) {
    const split = await help.split(task, at < MOST_BALANCED);
    const bench = await help.bench(task, at < MOST_BALANCED);
    const slower = await help.slower();
    const before = plan && { stationsBefore: plan.stations.length, peopleBefore: inAll(plan) };
    flags.push({
      ...flagOf(line.tasks[task]!),
      ...before,
      stationsAfter: then?.stations.length ?? null,
      peopleAfter: then && inAll(then),
      outcome: then && roomy!.best.outcome,
      answers: [
        ...places,
        ...(holds === null ? [] : [holds]),
        split,
        bench,
        ...(overload === null ? [] : [overload]),
        slower,
      ],
    });
  }
  return flags;
}

/** A task over a limit of which nothing else is known yet. */
function flagOf(task: Task): LongTaskFlag {
  return {
    kind: "over-limit",
    tasks: [task.id],
    joinsAt: null,
    stationsBefore: null,
    stationsAfter: null,
    peopleBefore: null,
    peopleAfter: null,
    outcome: null,
    answers: [],
  };
}
