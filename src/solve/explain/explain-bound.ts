import { countOf } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import { divide, ratio } from "../../time/ratio.js";
import type { Bound, LargeTasksBound, ThirdsBound } from "../bounds/bound.js";
import { BoundWords, beforeRounding } from "./bound-words.js";
import { chainStepWords, chainWords } from "./explain-chain.js";

/** The words of a proof: why no balance of this line has fewer stations, from the facts of the bound. */
export function explainBound(line: Line, bound: Bound, limit: number): string {
  const words = new Words(line, limit);
  switch (bound.kind) {
    case "work-content":
      return words.workContent(bound.workContent);
    case "large-tasks":
      return words.largeTasks(bound);
    case "thirds":
      return words.thirds(bound);
    case "bin-packing":
      return words.binPacking(bound);
    case "chain":
      return chainWords(new BoundWords(line, bound.limit), bound);
    case "search":
      return `every way to fill ${bound.stations - 1} stations was ruled out, ${inPlans(bound.nodes)}`;
  }
}

/** How the reason of a bound is counted, where it rests on sums of its own: sentences to check one after the other. */
export function boundSteps(line: Line, bound: Bound): string[] {
  return bound.kind === "chain" ? chainStepWords(new BoundWords(line, bound.limit), bound) : [];
}

/** How much was looked at to rule something out. */
export function inPlans(nodes: number): string {
  if (nodes === 0) return "by bounds alone";
  return `in ${nodes} partial ${nodes === 1 ? "plan" : "plans"} looked at`;
}

/** Why the work-content minimum cannot be reached, in a line; null where it is reached or nothing better is proved. */
export function explainGap(
  line: Line,
  minimum: number,
  bound: Bound,
  limit: number,
  proved: boolean,
): string | null {
  if (!proved || bound.stations <= minimum) return null;
  const why = explainBound(line, bound, limit);
  return `${why}; the work content alone would fill only ${minimum}`;
}

class Words extends BoundWords {
  workContent(workContent: number): string {
    const exact = divide(ratio(workContent), ratio(this.limit));
    const cut = this.loads.filter((load) => load > this.limit).length;
    const counted = `, ${countOf(cut, "task")} over the limit counted as ${cut === 1 ? "a full station" : "full stations"},`;
    return `${this.show(workContent)} of work${cut > 0 ? counted : ""} / ${this.show(this.limit)} a station = ${beforeRounding(exact)}, rounded up`;
  }

  largeTasks({ overHalf, exactlyHalf }: LargeTasksBound): string {
    const limit = this.show(this.limit);
    const over = this.overHalf(overHalf);
    if (exactlyHalf.length === 0) return over;
    const half = `at most two of ${this.names(exactlyHalf)}, each exactly half of ${limit}, share a station`;
    if (overHalf.length === 0) return half;
    if (exactlyHalf.length > 1) return `${over}; and ${half}, with none of those`;
    return `${over}; and ${this.names(exactlyHalf)}, exactly half of it, fits beside none of those`;
  }

  thirds(bound: ThirdsBound): string {
    const parts: [readonly number[], string][] = [
      [bound.overTwoThirds, "over two thirds, so beside none of the others (6 sixths each)"],
      [bound.exactlyTwoThirds, "exactly two thirds (4 sixths each)"],
      [bound.betweenThirds, "between one and two thirds, at most two together (3 sixths each)"],
      [bound.exactlyOneThird, "exactly one third (2 sixths each)"],
    ];
    const list = parts
      .filter(([tasks]) => tasks.length > 0)
      .map(([tasks, what]) => `${this.names(tasks)}: ${what}`)
      .join("; ");
    const stations = beforeRounding(ratio(bound.sixths, 6));
    return `tasks of a third of ${this.show(this.limit)} and more take ${bound.sixths} sixths of a station together, ${stations} stations, rounded up (${list})`;
  }
}
