import { countOf } from "../findings/count-of.js";
import type { Line } from "../line/line.js";
import { ceiling, divide, type Ratio, ratio, toDecimal } from "../time/ratio.js";
import type { ShowTime } from "../time/show-in-unit.js";
import { decimal } from "../time/show-values.js";
import type { BinPackingBound, Bound, ChainBound, LargeTasksBound, ThirdsBound } from "./bounds/bound.js";
import { loadsInParts, showPartsOf } from "./parts.js";

/** More names than this make a sentence unreadable; the rest is counted. */
const NAMES = 24;

/** The words of a proof: why no balance of this line has fewer stations, from the facts of the bound. */
export function explainBound(line: Line, bound: Bound, limit: number): string {
  const words = new Words(line, showPartsOf(line), limit);
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
      return words.chain(bound);
    case "search":
      return `every way to fill ${bound.stations - 1} stations was ruled out, ${inPlans(bound.nodes)}`;
  }
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

class Words {
  /** In parts of a microsecond, as the limit and the times of every bound. */
  readonly loads: readonly number[];

  constructor(
    readonly line: Line,
    readonly show: ShowTime,
    readonly limit: number,
  ) {
    this.loads = loadsInParts(line);
  }

  workContent(workContent: number): string {
    const exact = divide(ratio(workContent), ratio(this.limit));
    const cut = this.loads.filter((load) => load > this.limit).length;
    const counted = `, ${countOf(cut, "task")} over the limit counted as ${cut === 1 ? "a full station" : "full stations"},`;
    return `${this.show(workContent)} of work${cut > 0 ? counted : ""} / ${this.show(this.limit)} a station = ${beforeRounding(exact)}, rounded up`;
  }

  largeTasks({ overHalf, exactlyHalf }: LargeTasksBound): string {
    const limit = this.show(this.limit);
    const over =
      overHalf.length === 1
        ? `${this.names(overHalf)} takes over half of ${limit}`
        : `no two of ${overHalf.length} tasks fit together, each over half of ${limit}: ${this.names(overHalf)}`;
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

  binPacking(bound: BinPackingBound): string {
    const { threshold, alone, overHalf, filling, fillingWork, room } = bound;
    const limit = this.show(this.limit);
    const work =
      filling.length === 1
        ? `${this.names(filling)} needs ${this.show(fillingWork)}`
        : `${filling.length} tasks of ${this.show(threshold)} and more, up to half of it, need ${this.show(fillingWork)}: ${this.names(filling)}`;
    const over = alone.length + overHalf.length;
    if (over === 0) return `of ${limit} a station, ${work}`;
    const full = alone.length === 0 ? "" : ` (beside ${this.names(alone)} none of them fits)`;
    const rest = this.show(fillingWork - room);
    const more = countOf(bound.stations - over, "station");
    const beside = `at most ${this.show(room)} of that fits beside those${full}, and the other ${rest} takes ${more} more`;
    return `${countOf(over, "task")} over half of ${limit} ${over === 1 ? "needs a station" : "need a station each"}; ${work}; ${beside}`;
  }

  chain({ tasks, stationsBefore, stationsAfter }: ChainBound): string {
    const around = `${countOf(stationsBefore, "station")} must lie before that of ${this.names(tasks)} and ${stationsAfter} after it`;
    return `counted along the arrows from task to task, by their work and by which tasks fit together, and with rests that are too short to use rounded up, ${around}`;
  }

  names(tasks: readonly number[]): string {
    const shown = tasks.slice(0, NAMES).map((task) => {
      return `${this.line.tasks[task]!.id} (${this.show(this.loads[task]!)})`;
    });
    const rest = tasks.length - shown.length;
    if (shown.length === 0) return "none";
    return rest > 0 ? `${shown.join(", ")} and ${rest} more` : listed(shown);
  }
}

/** With as many decimals as show which whole number it is rounded up from. */
function beforeRounding(exact: Ratio): string {
  const decimals = [2, 4, 6].find(
    (each) => toDecimal(exact, each) !== toDecimal(ratio(ceiling(exact)), each),
  );
  return decimal(exact, decimals ?? 6);
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
