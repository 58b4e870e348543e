import type { Test } from "./line.js";
import type { Before } from "./precedence.js";
import { allFollowers } from "./reach.js";
import { orderOfWork, type Tests } from "./visits.js";

/** Tasks that no arrow puts before or after a test which scraps units, ascending. */
export interface ScrapOrder {
  readonly test: number;
  /** Taken to be done before the test, on units scrapped there too. */
  readonly asBefore: readonly number[];
  /** Taken to be done after it: other tests, or tasks that wait for one. */
  readonly asAfter: readonly number[];
}

/** For each test that scraps units the tasks whose place before or after it is only taken, where there are any. */
export function scrapOrders(before: Before, tests: Tests): ScrapOrder[] {
  if (!tests.some(scraps)) return [];
  const followers = allFollowers(before);
  const order = orderOfWork(before, tests);
  const place = new Map(order.map((task, at) => [task, at]));
  return [...tests.keys()].flatMap((test) => {
    if (!scraps(tests[test]!)) return [];
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
