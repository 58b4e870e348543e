import type { Line } from "../line/line.js";
import { divide, ratio } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { explainBound } from "./explain-bound.js";
import type { LeastLimitBound } from "./search/least-limit.js";

/** The words of a proof: why no plan with so many stations has a shorter longest station. */
export function explainLimitBound(line: Line, bound: LeastLimitBound): string {
  const show = showTimesIn(line.unit);
  const stations = `${bound.count} ${bound.count === 1 ? "station" : "stations"}`;
  switch (bound.kind) {
    case "longest-task":
      return `${line.tasks[bound.task]!.id} alone takes ${show(bound.limit)}`;
    case "work-content": {
      const share = divide(ratio(bound.workContent), ratio(bound.count));
      const next =
        show(share) === show(bound.limit) ? "" : `; the next sum of task times is ${show(bound.limit)}`;
      return `${show(bound.workContent)} of work / ${stations} = ${show(share)} a station${next}`;
    }
    case "stations":
      return `at ${show(bound.shorter)}, the next shorter sum of task times, ${bound.bound.stations} stations are needed: ${explainBound(line, bound.bound, bound.shorter)}`;
    case "search":
      return `every way to keep ${stations} at ${show(bound.shorter)}, the next shorter sum of task times, was ruled out, in ${bound.nodes} partial plans looked at`;
  }
}
