import type { Test } from "../../../src/line/line.js";
import type { Before } from "../../../src/line/precedence.js";
import { add, divide, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../../../src/time/ratio.js";

/*
 * The failures of a small line as a Markov chain with one state for each place in the work and in the repairs that are under
 * way, solved as linear equations: slow, and with no thought in common with the product.
 */

interface Frame {
  readonly steps: readonly number[];
  readonly at: number;
  /** The test that sent the unit back into these steps, which end with it; null on the first way. */
  readonly test: number | null;
}

type Stack = readonly Frame[];
type Tests = readonly (Test | null)[];

/**
 * Executions, arrivals and repairs of each task, and the share of good units, all for one unit started. Of the units that come
 * to a task one in `every` has it done, or passes by where it does not have the task: `every` is null then; a unit that failed a
 * test takes the test again for certain.
 */
export function solveChain(before: Before, tests: Tests, every: readonly (number | null)[]) {
  const states = new Map<string, { stack: Stack; number: number }>();
  const moves: { from: number; to: number; share: Ratio }[] = [];
  let good: { from: number; share: Ratio }[] = [];
  const repairs: { from: number; test: number; share: Ratio }[] = [];
  const waiting: Stack[] = [];
  const numberOf = (stack: Stack) => {
    const key = stack.map((frame) => `${frame.test}:${frame.at}`).join(" ");
    const known = states.get(key);
    if (known) return known.number;
    states.set(key, { stack, number: states.size });
    waiting.push(stack);
    return states.size - 1;
  };
  numberOf([{ steps: slowOrder(before, tests), at: 0, test: null }]);
  for (let stack = waiting.shift(); stack !== undefined; stack = waiting.shift()) {
    const from = numberOf(stack);
    for (const { next, share, repaired } of movesFrom(before, tests, every, stack)) {
      if (repaired !== null) repairs.push({ from, test: repaired, share });
      if (next === "good") good = [...good, { from, share }];
      else if (next !== "scrap") moves.push({ from, to: numberOf(next), share });
    }
  }
  const visited = solveVisits(states.size, moves);
  const sumOf = (parts: readonly { from: number; share: Ratio }[]) =>
    parts.map(({ from, share }) => multiply(visited[from]!, share)).reduce(add, ZERO);
  const taskOf = ({ stack }: { stack: Stack }) => stack.at(-1)!.steps[stack.at(-1)!.at]!;
  return {
    states: states.size,
    goodShare: sumOf(good),
    executions: tests.map((_, task) =>
      sumOf(
        [...states.values()]
          .filter((state) => taskOf(state) === task)
          .map(({ stack, number }) => ({
            from: number,
            share: stack.at(-1)!.test === task ? ONE : every[task] ? ratio(1, every[task]) : ZERO,
          })),
      ),
    ),
    arrivals: tests.map((_, task) =>
      sumOf(
        [...states.values()]
          .filter(({ stack }) => taskOf({ stack }) === task && stack.at(-1)!.test !== task)
          .map(({ number }) => ({ from: number, share: ONE })),
      ),
    ),
    repairs: tests.map((_, task) => sumOf(repairs.filter(({ test }) => test === task))),
  };
}

interface Move {
  readonly next: Stack | "good" | "scrap";
  readonly share: Ratio;
  readonly repaired: number | null;
}

function movesFrom(before: Before, tests: Tests, every: readonly (number | null)[], stack: Stack): Move[] {
  const frame = stack.at(-1)!;
  const task = frame.steps[frame.at]!;
  if (every[task] === null) return [{ next: goOn(stack), share: ONE, repaired: null }];
  const isSentBack = frame.test === task;
  const tested = movesOfTested(before, tests, stack);
  if (isSentBack || every[task] === 1) return tested;
  const share = ratio(1, every[task]!);
  const passesBy: Move = { next: goOn(stack), share: subtract(ONE, share), repaired: null };
  return [passesBy, ...tested.map((move) => ({ ...move, share: multiply(share, move.share) }))];
}

function movesOfTested(before: Before, tests: Tests, stack: Stack): Move[] {
  const frame = stack.at(-1)!;
  const task = frame.steps[frame.at]!;
  const test = tests[task];
  const move = (next: Move["next"], share: Ratio, repaired: number | null = null): Move => ({
    next,
    share,
    repaired,
  });
  if (!test) return [move(goOn(stack), ONE)];
  if (test.failures === "scrapped") {
    return [move(goOn(stack), subtract(ONE, test.scrap)), move("scrap", test.scrap)];
  }
  const pass = subtract(ONE, test.fail);
  if (frame.test !== task) {
    const redo: Frame = { steps: stepsAgain(before, tests, task), at: 0, test: task };
    return [move(goOn(stack), pass), move([...stack, redo], test.fail, task)];
  }
  const back = goOn(stack.slice(0, -1));
  if (test.retest === "once") return [move(back, ONE)];
  if (test.retest === "scrap") return [move(back, pass), move("scrap", test.fail)];
  return [move(back, pass), move([...stack.slice(0, -1), { ...frame, at: 0 }], test.fail, task)];
}

function goOn(stack: Stack): Stack | "good" {
  const frame = stack.at(-1)!;
  if (frame.at + 1 < frame.steps.length) return [...stack.slice(0, -1), { ...frame, at: frame.at + 1 }];
  return "good";
}

function stepsAgain(before: Before, tests: Tests, task: number): number[] {
  const test = tests[task]!;
  if (test.failures !== "repaired") return [];
  const { returnTo } = test;
  const again = (each: number) =>
    each === returnTo || (leads(before, returnTo, each) && leads(before, each, task));
  return [...slowOrder(before, tests).filter((each) => each !== task && again(each)), task];
}

function leads(before: Before, from: number, to: number): boolean {
  return before[to]!.some((each) => each === from || leads(before, from, each));
}

function slowOrder(before: Before, tests: Tests): number[] {
  const order: number[] = [];
  while (order.length < before.length) {
    const free = [...before.keys()].filter(
      (task) => !order.includes(task) && before[task]!.every((each) => order.includes(each)),
    );
    order.push(free.find((task) => tests[task] === null) ?? free[0]!);
  }
  return order;
}

/** Expected visits of each state by Gauss: v = start + moves into it. */
function solveVisits(size: number, moves: readonly { from: number; to: number; share: Ratio }[]): Ratio[] {
  const rows = Array.from({ length: size }, (_, row) =>
    Array.from({ length: size + 1 }, (_, column) =>
      column === row ? ONE : column === size && row === 0 ? ONE : ZERO,
    ),
  );
  for (const { from, to, share } of moves) rows[to]![from] = subtract(rows[to]![from]!, share);
  for (let pivot = 0; pivot < size; pivot++) {
    const swap = rows.findIndex((row, at) => at >= pivot && row[pivot]!.num !== 0n);
    [rows[pivot], rows[swap]] = [rows[swap]!, rows[pivot]!];
    const head = rows[pivot]!;
    for (const [at, row] of rows.entries()) {
      if (at === pivot || row[pivot]!.num === 0n) continue;
      const factor = divide(row[pivot]!, head[pivot]!);
      for (let column = pivot; column <= size; column++) {
        if (head[column]!.num !== 0n) row[column] = subtract(row[column]!, multiply(factor, head[column]!));
      }
    }
  }
  return rows.map((row, at) => divide(row[size]!, row[at]!));
}
