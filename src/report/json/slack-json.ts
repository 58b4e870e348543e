import type { PaceKept, Slack } from "../../answer/rebalance/slack.js";
import { numberJson, secondsJson } from "./number-json.js";

/** How far stations of a plan are from overflowing, in order of flow. */
export function slackJson({ line, stations, tightest, step, faultsAtAnyPace }: Slack) {
  return {
    period: line.demand?.period ?? null,
    step: numberJson(step),
    stations: stations.map(({ id, kind, kept, keptWithinLimit, tasks, tightest: first }) => ({
      id,
      kind,
      ...keptJson(kept),
      withinLimit: keptJson(keptWithinLimit),
      tightestTask: first === null ? null : line.tasks[first.task]!.id,
      tasks: tasks.map(({ task, time, growth, growthWithinLimit }) => ({
        task: line.tasks[task]!.id,
        seconds: secondsJson(time),
        growthSeconds: secondsJson(growth),
        growthWithinLimitSeconds: secondsJson(growthWithinLimit),
      })),
    })),
    tightest: tightest.map(({ id }) => id),
    errorsAtAnyPace: faultsAtAnyPace,
  };
}

const keptJson = ({ demand, lineCycle, growth, givesWay }: PaceKept) => ({
  highestDemand: numberJson(demand),
  lineCycleSeconds: secondsJson(lineCycle),
  growth: numberJson(growth),
  givesWay,
});
