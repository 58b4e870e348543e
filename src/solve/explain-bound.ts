import type { Line } from "../line/line.js";
import { divide, ratio } from "../time/ratio.js";
import { type ShowTime, showTimesIn } from "../time/show-in-unit.js";
import { decimal } from "../time/show-values.js";
import type { BinPackingBound, Bound, ChainBound, LargeTasksBound, ThirdsBound } from "./bounds/bound.js";

/** More names than this make a sentence unreadable; the rest is counted. */
const NAMES = 8;

/** The words of a proof: why no balance of this line has fewer stations, from the facts of the bound. */
export function explainBound(line: Line, bound: Bound, limit: number): string {
  const words = new Words(line, showTimesIn(line.unit), limit);
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
      return `every way to fill ${bound.stations - 1} stations was ruled out, in ${bound.nodes} partial plans looked at`;
  }
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
  constructor(
    readonly line: Line,
    readonly show: ShowTime,
    readonly limit: number,
  ) {}

  workContent(workContent: number): string {
    const stations = decimal(divide(ratio(workContent), ratio(this.limit)), 2);
    const cut = this.line.tasks.some(({ time }) => time > this.limit);
    const full = cut ? " (a task over the limit counts as a full station)" : "";
    return `${this.show(workContent)} of work${full} / ${this.show(this.limit)} a station = ${stations}, rounded up`;
  }

  largeTasks({ overHalf, exactlyHalf }: LargeTasksBound): string {
    const limit = this.show(this.limit);
    const over =
      overHalf.length === 1
        ? `${this.names(overHalf)} takes over half of ${limit}`
        : `no two of ${this.names(overHalf)} fit together, each over half of ${limit}`;
    if (exactlyHalf.length === 0) return over;
    const half = `two at most of ${this.names(exactlyHalf)}, each exactly half of ${limit}, share a station`;
    if (overHalf.length === 0) return half;
    if (exactlyHalf.length > 1) return `${over}, and ${half}, with none of those`;
    return `${over}, and ${this.names(exactlyHalf)}, exactly half of it, fits beside none of those`;
  }

  thirds(bound: ThirdsBound): string {
    const parts: [readonly number[], string][] = [
      [bound.overTwoThirds, "over two thirds, alone at a station (6 sixths each)"],
      [bound.exactlyTwoThirds, "exactly two thirds (4 sixths each)"],
      [bound.betweenThirds, "between one and two thirds, at most two at a station (3 sixths each)"],
      [bound.exactlyOneThird, "exactly one third (2 sixths each)"],
    ];
    const named = parts.filter(([tasks]) => tasks.length > 0);
    const list = named.map(([tasks, what]) => `${this.names(tasks)}: ${what}`).join("; ");
    return `tasks of a third of ${this.show(this.limit)} and more take ${bound.sixths} sixths of stations (${list})`;
  }

  binPacking(bound: BinPackingBound): string {
    const { threshold, alone, overHalf, filling, fillingWork, room } = bound;
    const limit = this.show(this.limit);
    const work = `the ${filling.length} tasks from ${this.show(threshold)} to half of it need ${this.show(fillingWork)}`;
    const over = alone.length + overHalf.length;
    if (over === 0) return `of ${limit} a station, ${work} among themselves`;
    const full = alone.length === 0 ? "" : ` (${this.names(alone)} leave no room for any of them)`;
    const rest = this.show(fillingWork - room);
    const more = count(bound.stations - over, "station");
    const beside = `of which at most ${this.show(room)} fits beside those${full}: the other ${rest} takes ${more} more`;
    return `${count(over, "task")} over half of ${limit} ${over === 1 ? "needs a station" : "need a station each"}, and ${work}, ${beside}`;
  }

  chain({ tasks, stationsBefore, stationsAfter }: ChainBound): string {
    const around = `${stationsBefore} stations must lie before its own and ${stationsAfter} after it`;
    return `${this.names(tasks)} has so much work before and behind it that ${around}`;
  }

  names(tasks: readonly number[]): string {
    const shown = tasks.slice(0, NAMES).map((task) => {
      const { id, time } = this.line.tasks[task]!;
      return `${id} (${this.show(time)})`;
    });
    const rest = tasks.length - shown.length;
    if (shown.length === 0) return "none";
    return rest > 0 ? `${shown.join(", ")} and ${rest} more` : listed(shown);
  }
}

const count = (number: number, what: string) => `${number} ${what}${number === 1 ? "" : "s"}`;

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
