import type { NumberOf } from "./draft-arrows.js";
import type { DraftTask } from "./draft-task.js";
import type { Test } from "./line.js";
import { type Before, isLoopFree } from "./precedence.js";
import { allFollowers } from "./reach.js";
import { type Visits, visitsOf } from "./visits.js";

/** The tests of a line as far as they make sense. */
export interface TestsDraft {
  /** For each task its test, null where there is none or it is faulty. */
  readonly tests: readonly (Test | null)[];
  /** Tests that send units back to a task which does not come before them, by task. */
  readonly wrongReturns: readonly number[];
  /** null where loops leave no order, or where the numbers grow beyond use. */
  readonly visits: Visits | null;
}

export function draftTests(tasks: readonly DraftTask[], numberOf: NumberOf, before: Before): TestsDraft {
  const all = tasks.map((task) => draftTest(task, numberOf));
  if (!isLoopFree(before)) return { tests: all, wrongReturns: [], visits: null };
  const returns = all.map((test) => (test?.failures === "repaired" ? test.returnTo : null));
  const isBack = returns.some((to, task) => to !== null && to !== task);
  const followers = isBack ? allFollowers(before) : null;
  const wrongReturns = [...all.keys()].filter((task) => {
    const to = returns[task]!;
    return to !== null && to !== task && !followers!.has(to, task);
  });
  const tests = all.map((test, task) => (wrongReturns.includes(task) ? null : test));
  return { tests, wrongReturns, visits: visitsOf(before, tests) };
}

/** A test of a task, or null where its keys do not make one. */
function draftTest({ keys: { test } }: DraftTask, numberOf: NumberOf): Test | null {
  if (test === undefined) return null;
  const { fail, repair, retest, scrap, "return-to": returnTo } = test.at;
  if (scrap !== undefined && fail === undefined) return { failures: "scrapped", scrap: scrap.value };
  const to = returnTo && numberOf(returnTo.value);
  if (fail === undefined || repair === undefined || to === undefined) return null;
  return {
    failures: "repaired",
    fail: fail.value,
    repair: repair.value,
    returnTo: to,
    retest: retest?.value ?? "until-good",
  };
}
