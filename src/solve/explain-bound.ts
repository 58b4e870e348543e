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
    return `${this.show(workContent)} of work / ${this.show(this.limit)} a station = ${stations}, rounded up`;
  }

  largeTasks({ overHalf, exactlyHalf }: LargeTasksBound): string {
    const over = `no two of ${this.names(overHalf)} fit together, each over half of ${this.show(this.limit)}`;
    const half = `of ${this.names(exactlyHalf)}, each exactly half of ${this.show(this.limit)}, two fill a station`;
    if (exactlyHalf.length === 0) return over;
    return overHalf.length === 0 ? half : `${over}, and ${half} that holds none of those`;
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

  binPacking({ threshold, alone, overHalf, filling, fillingWork, room }: BinPackingBound): string {
    const over = [...alone, ...overHalf].length;
    const each = `${over} tasks over half of ${this.show(this.limit)} need a station each`;
    const more = `the ${filling.length} tasks from ${this.show(threshold)} to half of it need ${this.show(fillingWork)}`;
    const left =
      over === 0 ? "" : ` but find at most ${this.show(room)} beside those (${this.names(alone)} leave none)`;
    return over === 0 ? `${more} among themselves` : `${each}, and ${more}${left}`;
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

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
