import { add, divide, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import type { Line, Task, Test } from "./line.js";
import { withFloorOrder } from "./order-by-floor.js";
import { type Before, topologicalOrder } from "./precedence.js";
import { allFollowers } from "./reach.js";

/** What failures of tests do to the tasks of a line; every number is exact. */
export interface Visits {
  /** For each task how often it is done for one good unit of each model; 0 where a model does not have it. */
  readonly visits: readonly (readonly Ratio[])[];
  /** For each task that is a test with repair the repairs for one good unit of the mix; null for any other. */
  readonly repairs: readonly (Ratio | null)[];
  /** For each task the units that come to it for one good unit of the mix, whether it is done on them or not. */
  readonly arriving: readonly Ratio[];
  /** For each task how many of these go on to what follows it; the others are scrapped on the way. */
  readonly leaving: readonly Ratio[];
  /** Share of the units started that end good; the others are scrapped. */
  readonly goodShare: Ratio;
}

export type Tests = readonly (Test | null)[];

/** Which tasks are done on which units. */
export interface UnitsOfLine {
  /** For each task on one of how many units it is done, whichever these are; 1 is every unit. */
  readonly every: readonly number[];
  /** The share of each model in the good units, and for each task whether the model has it; the shares make 1. */
  readonly models: readonly { readonly share: Ratio; readonly has: readonly boolean[] }[];
}

/** Numbers with more bits would make every later sum crawl; no line of people comes near. */
const MOST_BITS = 1024;

/**
 * How often each task is done, as an absorbing chain (J. G. Kemeny, J. L. Snell, Finite Markov Chains). A unit takes the tasks
 * in one order, tests as late as their followers allow. A unit that fails a test is repaired and does again the task it
 * returns to, every task after that one and before the test, and the test; tests among these may fail again. Units of a model
 * pass by the tests that it does not have. Of work on every so many units each unit that comes has the same chance, a unit
 * that failed such a test is tested again for certain.
 *
 * @param tests for each task its test; what a unit returns to comes before the test, or is the test itself
 * @param units without them every unit has every task
 * @param ordered the arrows with those that a floor adds, which say what is done first but not what is done again
 * @returns null where the numbers grow beyond all use: hundreds of tests inside each other
 */
export function visitsOf(
  before: Before,
  tests: Tests,
  units: UnitsOfLine = alike(tests.length),
  ordered: Before = before,
): Visits | null {
  const order = orderOfWork(ordered, tests);
  const redo = redoSets(before, tests, order);
  const chains: Chain[] = [];
  for (const [model, { has }] of units.models.entries()) {
    const own = tests.map((test, task) => (has[task] ? ofModel(test, model) : null));
    const chain = chainOf(own, units.every, order, redo);
    if (chain === null) return null;
    chains.push(chain);
  }
  const mean = (value: (chain: Chain) => Ratio): Ratio =>
    chains.map((chain, at) => multiply(units.models[at]!.share, value(chain))).reduce(add, ZERO);
  const made = {
    visits: tests.map((_, task) =>
      chains.map(({ done }, model) => (units.models[model]!.has[task] ? done[task]! : ZERO)),
    ),
    repairs: tests.map((test, task) =>
      test?.failures === "repaired" ? mean(({ redone }) => redone[task]!) : null,
    ),
    arriving: tests.map((_, task) => mean(({ arriving }) => arriving[task]!)),
    leaving: tests.map((_, task) => mean(({ leaving }) => leaving[task]!)),
    goodShare: divide(
      ONE,
      mean(({ started }) => started),
    ),
  };
  return [made.goodShare, ...made.arriving, ...made.leaving].some(isTooLong) ? null : made;
}

/** The test as units of one model meet it. */
function ofModel(test: Test | null, model: number): Test | null {
  if (test?.failures !== "repaired" || test.failByModel === undefined) return test;
  return { ...test, fail: test.failByModel[model]! };
}

function alike(tasks: number): UnitsOfLine {
  return {
    every: Array<number>(tasks).fill(1),
    models: [{ share: ONE, has: Array<boolean>(tasks).fill(true) }],
  };
}

/** What becomes of the units of one model, by task and for one good unit of it. */
interface Chain {
  readonly started: Ratio;
  readonly arriving: readonly Ratio[];
  readonly leaving: readonly Ratio[];
  readonly done: readonly Ratio[];
  readonly redone: readonly Ratio[];
}

/** null where the numbers grow beyond all use. */
function chainOf(
  tests: Tests,
  every: readonly number[],
  order: readonly number[],
  redo: ReadonlyMap<number, readonly number[]>,
): Chain | null {
  const outcomes = new Map<number, Outcome>();
  for (const task of order) {
    const test = tests[task];
    if (!test) continue;
    const outcome = outcomeOf(test, survival(redo.get(task) ?? [], outcomes), every[task]!);
    if (isTooLong(outcome.cleared) || isTooLong(outcome.done)) return null;
    outcomes.set(task, outcome);
  }
  const arriving = tests.map(() => ZERO);
  const good = walk(order, ONE, outcomes, arriving);
  if (isTooLong(good)) return null;
  for (const task of order.toReversed()) {
    const [steps, outcome] = [redo.get(task), outcomes.get(task)];
    if (steps === undefined || outcome === undefined) continue;
    walk(steps, multiply(arriving[task]!, outcome.redone), outcomes, arriving);
    if (isTooLong(arriving[task]!)) return null;
  }
  const started = divide(ONE, good);
  const perGood = arriving.map((share) => multiply(share, started));
  const times = (value: (task: number) => Ratio) =>
    perGood.map((units, task) => multiply(units, value(task)));
  return {
    started,
    arriving: perGood,
    leaving: times((task) => outcomes.get(task)?.cleared ?? ONE),
    done: times((task) => outcomes.get(task)?.done ?? ratio(1, every[task]!)),
    redone: times((task) => outcomes.get(task)?.redone ?? ZERO),
  };
}

/** The order in which a unit is taken to meet the tasks: tests as late as their followers allow, else smallest first. */
export function orderOfWork(before: Before, tests: Tests): number[] {
  return topologicalOrder(before, (task) => tests[task] !== null);
}

/** The visits of a line whose file is sound. */
export const visitsOfLine = (line: Line): Visits => countOn(line, everiesOf(line))!;

/**
 * How much more often each task is done for a good unit of each model that gets all the work done on every so many units than for one
 * on average: a test that some units meet sends back those alone.
 */
export function moreOftenWithAllWork(line: Line): readonly (readonly Ratio[])[] {
  const known = moreOften.get(line);
  if (known !== undefined) return known;
  const everies = everiesOf(line);
  const seldom = everies.some((every) => every > 1);
  const all = seldom ? countOn(line, alike(everies.length).every) : null;
  const mean = seldom ? visitsOfLine(line) : null;
  const found = line.tasks.map(({ every, visits }, task) =>
    visits.map((_, column) => {
      // Where the numbers would grow beyond all use, as where a model has no such task, the work alone is that of one unit.
      if (all === null || mean === null || mean.visits[task]![column]!.num === 0n) return ratio(every);
      return divide(all.visits[task]![column]!, mean.visits[task]![column]!);
    }),
  );
  moreOften.set(line, found);
  return found;
}

const moreOften = new WeakMap<Line, readonly (readonly Ratio[])[]>();

const everiesOf = ({ tasks }: Line): number[] => tasks.map(({ every }) => every);

/**
 * How often something is done just before a task for one good unit of each model, in the order of `Task.times`, that follows only these
 * of the tasks before it: on every unit that comes, and again on those that tests send back to these tasks or to what is before them.
 *
 * @param carried tasks of which a model has at least one, where it has the thing at all
 */
export function visitsBefore(
  line: Line,
  task: number,
  follows: readonly number[],
  carried: readonly number[],
): readonly Ratio[] {
  const { units, tests, ordered } = chainsOf(line, everiesOf(line));
  const after = (before: Before, own: readonly number[]): Before => [
    ...before.map((earlier, at) => (at === task ? [...earlier, before.length] : earlier)),
    own,
  ];
  const models = units.models.map(({ share, has }) => ({
    share,
    has: [...has, has[task]! && carried.some((each) => has[each])],
  }));
  return visitsOf(
    after(line.before, follows),
    [...tests, null],
    { every: [...units.every, units.every[task]!], models },
    after(ordered, ordered[task]!),
  )!.visits.at(-1)!;
}

function countOn(line: Line, every: readonly number[]): Visits | null {
  const { units, tests, ordered } = chainsOf(line, every);
  return visitsOf(line.before, tests, units, ordered);
}

/** What says how often the tasks of a line are done. */
function chainsOf({ before, tasks, models, floor }: Line, every: readonly number[]) {
  const shares = models.length === 0 ? [ONE] : models.map(({ share }) => share);
  const units = {
    every,
    models: shares.map((share, model) => ({ share, has: tasks.map(({ times }) => times[model] !== null) })),
  };
  const tests = tasks.map(({ test }) => test);
  const isTest = tests.map((test) => test !== null);
  const zones = floor.map(({ zone }) => zone);
  return { units, tests, ordered: withFloorOrder(before, isTest, tasks, zones) };
}

/** Repairs for one good unit at each test of the line that repairs, by task; null for any other task. */
export function repairsPerGoodUnit(line: Line): readonly (Ratio | null)[] {
  return visitsOfLine(line).repairs;
}

/** How often a task is done for one good unit of the mix; models without it count as 0. */
export function visitsPerGoodUnit({ models }: Pick<Line, "models">, { visits }: Task): Ratio {
  if (visits.length === 1) return visits[0]!;
  return models.map(({ share }, model) => multiply(share, visits[model]!)).reduce(add, ZERO);
}

/** What comes of one unit that arrives at a test, until it leaves it for good. */
interface Outcome {
  /** Share that goes on to what follows the test; the rest is scrapped. */
  readonly cleared: Ratio;
  /** How often the test is done on it, without those times that tests further on send the unit back. */
  readonly done: Ratio;
  /** How often the unit is repaired and sent back from here. */
  readonly redone: Ratio;
}

/** Of the units that come, one in `every` is tested, the others pass by. */
function outcomeOf(test: Test, survives: Ratio, every: number): Outcome {
  const tested = outcomeOfTested(test, survives);
  const share = ratio(1, every);
  return {
    cleared: add(subtract(ONE, share), multiply(share, tested.cleared)),
    done: multiply(share, tested.done),
    redone: multiply(share, tested.redone),
  };
}

/** `survives` is the share of the units sent back that come to the test again. */
function outcomeOfTested(test: Test, survives: Ratio): Outcome {
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
export function redoSets(before: Before, tests: Tests, order: readonly number[]): Map<number, number[]> {
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
    if (outcome === undefined) continue;
    // Refused by whoever asked; thousands of tests would multiply it on and on.
    if (isTooLong(left)) return left;
    left = multiply(left, outcome.cleared);
  }
  return left;
}

function isTooLong({ num, den }: Ratio): boolean {
  return num.toString(16).length * 4 > MOST_BITS || den.toString(16).length * 4 > MOST_BITS;
}
