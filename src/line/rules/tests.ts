import { compare, ONE } from "../../time/ratio.js";
import type { Test } from "../line.js";
import type { LineDraft } from "../line-draft.js";
import type { TaskKeys } from "../parts/task.js";
import { type Before, isLoopFree } from "../precedence.js";
import { allFollowers } from "../reach.js";
import { orderOfWork, redoSets, type Tests } from "../visits.js";
import { found, type LineRule } from "./line-rule.js";

type TestKeys = NonNullable<TaskKeys["test"]>["keys"];

export const testKeys: LineRule = {
  name: "test-keys",
  purpose: "A test says what becomes of the units that fail.",
  check(draft) {
    return draft.tasks.flatMap(({ id, keys: { test } }) => {
      const problem = test === undefined ? null : problemOf(test.keys);
      if (problem === null) return [];
      const message = `task ${id}, test: ${problem}`;
      return [found("test-keys", draft, { severity: "error", message, place: test!.place, task: id })];
    });
  },
};

function problemOf(keys: TestKeys): string | null {
  const repairKeys = (["fail", "repair", "return-to", "retest"] as const).filter((key) => keys[key]);
  const missing = (["fail", "repair", "return-to"] as const).filter((key) => !keys[key]);
  if (keys.scrap) {
    if (repairKeys.length === 0) return null;
    return `\`scrap\` stands alone, without ${inCode(repairKeys)}; units scrapped when they fail a second time are \`retest: scrap\``;
  }
  if (missing.length === 0) return null;
  if (missing.length === 3 && repairKeys.length === 0)
    return "nothing says what becomes of units; write {fail: 3 %, repair: 6 min, return-to: TASK} or {scrap: 10 %}";
  return `${inCode(missing)} ${missing.length === 1 ? "is" : "are"} missing; \`fail\`, \`repair\` and \`return-to\` go together`;
}

function inCode(keys: readonly string[]): string {
  return keys.map((key) => `\`${key}\``).join(" and ");
}

export const returnTo: LineRule = {
  name: "return-to",
  purpose: "Repaired units return to a task before the test, or to the test itself.",
  check(draft) {
    return draft.failures.wrongReturns.map((number) => {
      const { id, keys } = draft.tasks[number]!;
      const { value, place } = keys.test!.at["return-to"]!;
      const to = draft.tasks[draft.numberOf(value)!]!.id;
      const message = `task ${id}, test, return-to: no precedence leads from ${to} to ${id}, so a repaired unit would not come to the test again; name a task before it, or ${id} itself`;
      return found("return-to", draft, { severity: "error", message, place, task: id });
    });
  },
};

/** More names fit no message. */
const NAMED = 8;

export const scrapOrder: LineRule = {
  name: "scrap-order",
  purpose: "Tells which tasks are taken to come before or after a test that loses units.",
  check(draft) {
    const { before } = draft;
    const { tests, ordered } = draft.failures;
    if (tests.every((test) => test === null) || !isLoopFree(before)) return [];
    return scrapOrders(before, tests, ordered).map(({ test, asBefore, asAfter }) => {
      const { id, keys } = draft.tasks[test]!;
      const taken = [
        ...(asBefore.length > 0
          ? [`taken as done before, on scrapped units too: ${namesOf(draft, asBefore)}`]
          : []),
        ...(asAfter.length > 0 ? [`taken as done after: ${namesOf(draft, asAfter)}`] : []),
      ];
      const where = scraps(tests[test]!)
        ? "before units are scrapped here"
        : "before units are sent back from here, of which some are scrapped on the way";
      const message = `task ${id}, test: no precedence says what is done ${where}; ${taken.join("; ")}; times performed and loads count on it, so say with \`after\` where it is otherwise`;
      return found("scrap-order", draft, { severity: "warning", message, place: keys.test!.place, task: id });
    });
  },
};

function namesOf(draft: LineDraft, tasks: readonly number[]): string {
  const names = tasks.slice(0, NAMED).map((task) => draft.tasks[task]!.id);
  return tasks.length <= NAMED ? names.join(", ") : `${names.join(", ")} and ${tasks.length - NAMED} more`;
}

export const uncountableVisits: LineRule = {
  name: "uncountable-visits",
  purpose: "How often failures make tasks be done again can be counted exactly.",
  check(draft) {
    if (draft.failures.visits !== null || !isLoopFree(draft.before)) return [];
    const { id, keys } = draft.tasks[draft.failures.tests.findIndex((test) => test !== null)]!;
    const message =
      "the tests of this line send units back in too many ways: how often each task is done has hundreds of digits; let fewer tests lie between a test and what it returns to, or round the shares";
    return [
      found("uncountable-visits", draft, { severity: "error", message, place: keys.test!.place, task: id }),
    ];
  },
};

export const scrapAndYield: LineRule = {
  name: "scrap-and-yield",
  purpose: "Scrap is counted at its test or in the yield of the line, never twice.",
  check(draft) {
    const [place, good] = [draft.places.yield, draft.keys.yield];
    // A yield of 100 % takes nothing off.
    if (place === undefined || good === undefined || compare(good.value, ONE) >= 0) return [];
    return draft.tasks.flatMap(({ id, keys: { test } }) => {
      const scrap = test?.keys.scrap ?? (test?.at.retest?.value === "scrap" ? test.keys.retest : undefined);
      if (scrap === undefined) return [];
      const message = `task ${id}, test: units are scrapped here, and \`yield\` (line ${place.line}) takes scrap off the whole line; each unit is lost once, so take one of the two out`;
      return [found("scrap-and-yield", draft, { severity: "error", message, place: scrap, task: id })];
    });
  },
};

/** Tasks that no arrow puts before or after a test which scraps units, ascending. */
interface ScrapOrder {
  readonly test: number;
  /** Taken to be done before the test, on units scrapped there too. */
  readonly asBefore: readonly number[];
  /** Taken to be done after it: other tests, or tasks that wait for one. */
  readonly asAfter: readonly number[];
}

/**
 * For each test that scraps units, or sends some back of which a test on the way scraps some, the tasks whose place before or after it is
 * only taken, where there are any.
 *
 * @param ordered the arrows with those that a floor adds
 */
export function scrapOrders(before: Before, tests: Tests, ordered: Before = before): ScrapOrder[] {
  if (!tests.some(scraps)) return [];
  const followers = allFollowers(ordered);
  const order = orderOfWork(ordered, tests);
  const redone = redoSets(before, tests, order);
  const place = new Map(order.map((task, at) => [task, at]));
  return [...tests.keys()].flatMap((test) => {
    const isLossy = scraps(tests[test]!) || redone.get(test)?.some((task) => scraps(tests[task]!));
    if (!isLossy) return [];
    const free = [...tests.keys()].filter(
      (task) => task !== test && !followers.has(test, task) && !followers.has(task, test),
    );
    if (free.length === 0) return [];
    const isBefore = (task: number) => place.get(task)! < place.get(test)!;
    return [{ test, asBefore: free.filter(isBefore), asAfter: free.filter((task) => !isBefore(task)) }];
  });
}

function scraps(test: Test | null): boolean {
  return test !== null && (test.failures === "scrapped" || test.retest === "scrap");
}
