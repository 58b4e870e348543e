import type { Line } from "../../line/line.js";
import { peopleOfPlan } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import type { BalancingOptions } from "../../solve/balance.js";
import type { Pace } from "../../time/pace.js";
import type { LongTaskFlag } from "../off-line/off-line-flag.js";
import { flagOf } from "./flag-long-tasks.js";
import { FloorAnswers } from "./floor-answers.js";

/** Searches for each task: places or equipment, holds, parts, a bench, a slower pace, more overload. */
const ANSWERS = 6;
const LEAST_NODES = 1_000;

/**
 * Flags tasks that are too long for the stations of a line with shop-floor rules, with the answers that exist, each as a balance that
 * keeps the rules, or with what speaks against it.
 *
 * @param plan the balance with these tasks over the limit; null where no station can hold them
 */
export async function flagFloorLongTasks(
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
  const answers = new FloorAnswers(line, pace, long, search, plan === null);
  const roomy = plan === null ? await answers.places() : null;
  const places = plan === null ? [answers.placesAnswer(roomy)] : [];
  const then = roomy?.best.plan ?? null;
  const inAll = (each: Plan) => peopleOfPlan(line, pace, each).atATime;
  const holds = plan === null ? await answers.holds() : null;
  const overload = plan === null ? await answers.overload() : null;
  const flags: LongTaskFlag[] = [];
  for (const task of long) {
    const split = await answers.split(task);
    const bench = await answers.bench(task);
    const slower = await answers.slower();
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
