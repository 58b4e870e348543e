import { add, divide, multiply, ONE, type Ratio, subtract, ZERO } from "../time/ratio.js";
import type { Line, Test } from "./line.js";
import { type Before, topologicalOrder } from "./precedence.js";
import { allFollowers } from "./reach.js";

/** What failures of tests do to the tasks of a line; every number is exact. */
export interface Visits {
  /** For each task how often it is done for one good unit. */
  readonly visits: readonly Ratio[];
  /** For each task that is a test with repair the repairs for one good unit; null for any other. */
  readonly repairs: readonly (Ratio | null)[];
  /** Share of the units started that end good; the others are scrapped. */
  readonly goodShare: Ratio;
}

export type Tests = readonly (Test | null)[];

/** Numbers with more bits would make every later sum crawl; no line of people comes near. */
const MOST_BITS = 1024;

/**
 * How often each task is done, as an absorbing chain (J. G. Kemeny, J. L. Snell, Finite Markov Chains). A unit takes the tasks
 * in one order, tests as late as their followers allow. A unit that fails a test is repaired and does again the task it
 * returns to, every task after that one and before the test, and the test; tests among these may fail again.
 *
 * @param tests for each task its test; what a unit returns to comes before the test, or is the test itself
 * @returns null where the numbers grow beyond all use: hundreds of tests inside each other
 */
export function visitsOf(before: Before, tests: Tests): Visits | null {
  const order = orderOfWork(before, tests);
  const redo = redoSets(before, tests, order);
  const outcomes = new Map<number, Outcome>();
  for (const task of order) {
    const test = tests[task];
    if (!test) continue;
    const outcome = outcomeOf(test, survival(redo.get(task) ?? [], outcomes));
    if (isTooLong(outcome.cleared) || isTooLong(outcome.done)) return null;
    outcomes.set(task, outcome);
  }
  const starts = tests.map(() => ZERO);
  const goodShare = walk(order, ONE, outcomes, starts);
  if (isTooLong(goodShare)) return null;
  for (const task of order.toReversed()) {
    const steps = redo.get(task);
    if (steps === undefined) continue;
    walk(steps, multiply(starts[task]!, outcomes.get(task)!.redone), outcomes, starts);
    if (isTooLong(starts[task]!)) return null;
  }
  const perGood = (share: Ratio) => divide(share, goodShare);
  return {
    visits: starts.map((start, task) => perGood(multiply(start, outcomes.get(task)?.done ?? ONE))),
    repairs: tests.map((test, task) =>
      test?.failures === "repaired" ? perGood(multiply(starts[task]!, outcomes.get(task)!.redone)) : null,
    ),
    goodShare,
  };
}

/** The order in which a unit is taken to meet the tasks: tests as late as their followers allow, else smallest first. */
export function orderOfWork(before: Before, tests: Tests): number[] {
  return topologicalOrder(before, (task) => tests[task] !== null);
}

/** Repairs for one good unit at each test of the line that repairs, by task; null for any other task. */
export function repairsPerGoodUnit(line: Line): readonly (Ratio | null)[] {
  return visitsOf(
    line.before,
    line.tasks.map((task) => task.test),
  )!.repairs;
}

/** What comes of one unit that arrives at a test, until it leaves it for good. */
interface Outcome {
  /** Share that goes on to what follows the test; the rest is scrapped. */
  readonly cleared: Ratio;
  /** How often the test is done, without those times that tests further on send the unit back. */
  readonly done: Ratio;
  /** How often the unit is repaired and sent back from here. */
  readonly redone: Ratio;
}

/** `survives` is the share of the units sent back that come to the test again. */
function outcomeOf(test: Test, survives: Ratio): Outcome {
  if (test.failures === "scrapped") {
    return { cleared: subtract(ONE, test.scrap), done: ONE, redone: ZERO };
  }
  const { fail, retest } = test;
  const pass = subtract(ONE, fail);
  const back = multiply(fail, survives);
  if (retest === "until-good") {
    const rounds = divide(ONE, subtract(ONE, back));
    return { cleared: multiply(pass, rounds), done: rounds, redone: multiply(fail, rounds) };
  }
  const again = retest === "once" ? ONE : pass;
  return { cleared: add(pass, multiply(back, again)), done: add(ONE, back), redone: fail };
}

/** The tasks that a unit sent back by each test does before it comes to the test again, in order of work. */
function redoSets(before: Before, tests: Tests, order: readonly number[]): Map<number, number[]> {
  const sets = new Map<number, number[]>();
  const sentBack = tests.some((test, task) => test?.failures === "repaired" && test.returnTo !== task);
  const followers = sentBack ? allFollowers(before) : null;
  for (const [task, test] of tests.entries()) {
    if (test?.failures !== "repaired" || test.returnTo === task) continue;
    const { returnTo } = test;
    const between = (each: number) => followers!.has(returnTo, each) && followers!.has(each, task);
    sets.set(
      task,
      order.filter((each) => each === returnTo || between(each)),
    );
  }
  return sets;
}

function survival(tasks: readonly number[], outcomes: ReadonlyMap<number, Outcome>): Ratio {
  return tasks.reduce((share, task) => multiply(share, outcomes.get(task)?.cleared ?? ONE), ONE);
}

/** Adds the share of units that start each of these tasks, one after another; gives back the share that leaves the last. */
function walk(
  tasks: readonly number[],
  share: Ratio,
  outcomes: ReadonlyMap<number, Outcome>,
  starts: Ratio[],
): Ratio {
  let left = share;
  for (const task of tasks) {
    starts[task] = add(starts[task]!, left);
    const outcome = outcomes.get(task);
    if (outcome !== undefined) left = multiply(left, outcome.cleared);
  }
  return left;
}

function isTooLong({ num, den }: Ratio): boolean {
  return num.toString(16).length * 4 > MOST_BITS || den.toString(16).length * 4 > MOST_BITS;
}
