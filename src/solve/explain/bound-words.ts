import { countOf } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import { ceiling, type Ratio, ratio, toDecimal } from "../../time/ratio.js";
import type { ShowTime } from "../../time/show-in-unit.js";
import { decimal } from "../../time/show-values.js";
import type { BinPackingBound } from "../bounds/bound.js";
import { loadsInParts, showPartsOf } from "../parts.js";

/** More names than this make a sentence unreadable; the rest is counted. */
const NAMES = 24;

/** How the facts of a bound are put, on a line and at a limit of the stations. */
export class BoundWords {
  readonly show: ShowTime;
  /** In parts of a microsecond, as the limit and the times of every bound: what is no whole part is rounded down. */
  readonly loads: readonly number[];

  constructor(
    readonly line: Line,
    readonly limit: number,
  ) {
    this.show = showPartsOf(line);
    this.loads = loadsInParts(line, "down");
  }

  /** No two of these tasks share a station. */
  overHalf(tasks: readonly number[]): string {
    const limit = this.show(this.limit);
    return tasks.length === 1
      ? `${this.names(tasks)} takes over half of ${limit}`
      : `no two of ${tasks.length} tasks fit together, each over half of ${limit}: ${this.names(tasks)}`;
  }

  binPacking(bound: BinPackingBound): string {
    const { threshold, alone, overHalf, filling, fillingWork, room } = bound;
    const limit = this.show(this.limit);
    if (filling.length === 0) return this.overHalf([...alone, ...overHalf]);
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
export function beforeRounding(exact: Ratio): string {
  const decimals = [2, 4, 6].find(
    (each) => toDecimal(exact, each) !== toDecimal(ratio(ceiling(exact)), each),
  );
  return decimal(exact, decimals ?? 6);
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
