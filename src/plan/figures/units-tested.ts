import type { Line, Task } from "../../line/line.js";
import { visitsOfLine, visitsPerGoodUnit } from "../../line/visits.js";
import { add, compare, divide, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";

/** How often a task is done for one good unit. */
export interface TaskVisits {
  readonly task: number;
  readonly visits: Ratio;
}

/** What a test that scraps its failures does to the pace on either side of it; times in microseconds. */
export interface ScrapPace {
  /** Task number of the test. */
  readonly test: number;
  /** Share of the units tested that is scrapped; where failures are tested again, of the units that come. */
  readonly scrap: Ratio;
  /** A unit comes to the test every so often. */
  readonly before: Ratio;
  /** A unit leaves it for the tasks behind it every so often. */
  readonly after: Ratio;
}

/** Tasks that failures of tests have done more or less often, in the order of the line; empty where there are none. */
export function unevenVisits(line: Line): TaskVisits[] {
  return line.tasks.flatMap((each, task) => {
    const visits = visitsPerGoodUnit(line, each);
    return compare(visits, visitsWithoutFailures(line, each)) === 0 ? [] : [{ task, visits }];
  });
}

/** How often a task is due for a unit of the mix: the share of the models that have it / every. */
function visitsWithoutFailures({ models }: Line, { times, every }: Task): Ratio {
  if (models.length === 0) return ratio(1, every);
  const having = models.map(({ share }, model) => (times[model] === null ? ZERO : share)).reduce(add, ZERO);
  return divide(having, ratio(every));
}

/** Share of the units started that pass every test in the end, 0 to 1; null on a line without tests. */
export function goodShare(line: Line): Ratio | null {
  if (line.tasks.every(({ test }) => test === null)) return null;
  return visitsOfLine(line).goodShare;
}

/**
 * Units to start for so many good ones = good units / (yield x share that passes the tests). One of the two is 1: a line-wide
 * yield and tests that scrap exclude each other.
 */
export function unitsToStart(line: Line, good: Ratio): Ratio {
  return divide(good, multiply(line.yield, goodShare(line) ?? ONE));
}

/** For each test that scraps failures, at once or when they fail again, how often a unit comes to it and leaves it, in the order of the line. */
export function scrapPaces(line: Line, lineCycle: Ratio): ScrapPace[] {
  if (compare(lineCycle, ZERO) <= 0) return [];
  const scraps = (test: Task["test"]) => test?.failures === "scrapped" || test?.retest === "scrap";
  if (!line.tasks.some(({ test }) => scraps(test))) return [];
  const { arriving, leaving } = visitsOfLine(line);
  return line.tasks.flatMap(({ test }, at) => {
    if (test === null || !scraps(test)) return [];
    const [comes, goes] = [arriving[at]!, leaving[at]!];
    const scrap = test.failures === "scrapped" ? test.scrap : divide(subtract(comes, goes), comes);
    return [{ test: at, scrap, before: divide(lineCycle, comes), after: divide(lineCycle, goes) }];
  });
}
