import type { Line } from "../line/line.js";
import { visitsOf } from "../line/visits.js";
import { compare, divide, multiply, ONE, type Ratio, subtract, ZERO } from "../time/ratio.js";

/** How often a task is done for one good unit. */
export interface TaskVisits {
  readonly task: number;
  readonly visits: Ratio;
}

/** What a test that scraps its failures does to the pace on either side of it; times in microseconds. */
export interface ScrapPace {
  /** Task number of the test. */
  readonly test: number;
  /** Share of the units tested that is scrapped. */
  readonly scrap: Ratio;
  /** A unit comes to the test every so often. */
  readonly before: Ratio;
  /** A unit leaves it for the tasks behind it every so often. */
  readonly after: Ratio;
}

/** Tasks that are done more or less than once for a good unit, in the order of the line; empty where none is. */
export function unevenVisits(line: Line): TaskVisits[] {
  return line.tasks.flatMap(({ visits }, task) => (compare(visits, ONE) === 0 ? [] : [{ task, visits }]));
}

/** Share of the units started that pass every test in the end, 0 to 1; null on a line without tests. */
export function goodShare(line: Line): Ratio | null {
  if (line.tasks.every(({ test }) => test === null)) return null;
  const tests = line.tasks.map(({ test }) => test);
  return visitsOf(line.before, tests)!.goodShare;
}

/**
 * Units to start for so many good ones = good units / (yield x share that passes the tests). One of the two is 1: a line-wide
 * yield and tests that scrap exclude each other.
 */
export function unitsToStart(line: Line, good: Ratio): Ratio {
  return divide(good, multiply(line.yield, goodShare(line) ?? ONE));
}

/** How often a task must be done so that good units meet the pace: line cycle / visits, in microseconds. */
export function paceAt(line: Line, lineCycle: Ratio, task: number): Ratio {
  return divide(lineCycle, line.tasks[task]!.visits);
}

/** For each test that scraps its failures how often a unit comes to it and leaves it, in the order of the line. */
export function scrapPaces(line: Line, lineCycle: Ratio): ScrapPace[] {
  if (compare(lineCycle, ZERO) <= 0) return [];
  return line.tasks.flatMap(({ test }, at) => {
    if (test?.failures !== "scrapped") return [];
    const before = paceAt(line, lineCycle, at);
    return [{ test: at, scrap: test.scrap, before, after: divide(before, subtract(ONE, test.scrap)) }];
  });
}
