import { countOf } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import { divide, ratio } from "../../time/ratio.js";
import { showPartsOf } from "../parts.js";
import type { LeastLimitBound } from "../search/least-limit.js";
import { boundSteps, explainBound, inPlans } from "./explain-bound.js";

/** The words of a proof: why no plan with so many stations has a shorter longest station. */
export function explainLimitBound(line: Line, bound: LeastLimitBound): string {
  const show = showPartsOf(line);
  const stations = countOf(bound.count, "station");
  // Where station times lie closer together than what is shown, a number would contradict the one before it.
  const shorter = (time: number) =>
    show(time) === show(bound.limit) ? "anything shorter" : `${show(time)} (the next shorter station time)`;
  switch (bound.kind) {
    case "longest-task":
      return `${line.tasks[bound.task]!.id} alone takes ${show(bound.limit)}`;
    case "work-content": {
      const share = divide(ratio(bound.workContent), ratio(bound.count));
      const next =
        show(share) === show(bound.limit)
          ? ""
          : `; the next station time from there on is ${show(bound.limit)}`;
      return `${show(bound.workContent)} of work / ${stations} = ${show(share)} a station${next}`;
    }
    case "stations":
      return `at ${shorter(bound.shorter)}, ${bound.bound.stations} stations are needed: ${explainBound(line, bound.bound, bound.shorter)}`;
    case "search":
      return `every way to keep ${stations} at ${shorter(bound.shorter)} was ruled out, ${inPlans(bound.nodes)}`;
  }
}

/** How the reason is counted, where it rests on sums of its own. */
export function limitBoundSteps(line: Line, bound: LeastLimitBound): string[] {
  return bound.kind === "stations" ? boundSteps(line, bound.bound) : [];
}
