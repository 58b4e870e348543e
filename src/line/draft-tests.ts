import { type Ratio, ratio } from "../time/ratio.js";
import type { NumberOf } from "./draft-arrows.js";
import { type ModelsDraft, sharesOf, sumOfAmounts } from "./draft-models.js";
import { type DraftTask, everyOf, modelTimes } from "./draft-task.js";
import type { Test } from "./line.js";
import { type Before, isLoopFree } from "./precedence.js";
import { allFollowers } from "./reach.js";
import { type UnitsOfLine, type Visits, visitsOf } from "./visits.js";

/** The tests of a line as far as they make sense. */
export interface TestsDraft {
  /** For each task its test, null where there is none or it is faulty. */
  readonly tests: readonly (Test | null)[];
  /** Tests that send units back to a task which does not come before them, by task. */
  readonly wrongReturns: readonly number[];
  /** null where loops leave no order, or where the numbers grow beyond use. */
  readonly visits: Visits | null;
}

export function draftTests(
  tasks: readonly DraftTask[],
  numberOf: NumberOf,
  before: Before,
  models: ModelsDraft,
): TestsDraft {
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
  return { tests, wrongReturns, visits: visitsOf(before, tests, draftUnits(tasks, models)) };
}

/** Equal shares stand in for shares that could not be read. */
function draftUnits(tasks: readonly DraftTask[], models: ModelsDraft): UnitsOfLine {
  const count = Math.max(1, models.models.length);
  const sum = sumOfAmounts(models);
  const isRead = models.models.length === 0 || (sum !== null && sum.value.num > 0n);
  const shares = isRead ? sharesOf(models) : Array<Ratio>(count).fill(ratio(1, count));
  const times = tasks.map((task) => modelTimes(task, models));
  return {
    every: tasks.map(everyOf),
    models: shares.map((share, model) => ({ share, has: times.map((each) => each[model] !== null) })),
  };
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
