import type { Line } from "../../line/line.js";
import { orderOfWork, redoSets, visitsOfLine } from "../../line/visits.js";
import { add, compare, divide, larger, ONE, type Ratio } from "../../time/ratio.js";

/**
 * Carriers that pass a place of a line that moves together for one good unit: one for each unit started, and one for each failure that is sent
 * back over it. Units scrapped on the way count to the end of the line.
 *
 * @param tests task numbers of the tests that send units back over the place
 */
export function carriersOver(line: Line, tests: readonly number[]): Ratio {
  const { repairs, goodShare } = visitsOfLine(line);
  return tests.flatMap((test) => repairs[test] ?? []).reduce(add, divide(ONE, goodShare));
}

/**
 * What a good unit takes of them in every plan: over the station of a task pass the units of each test that has it done again. Null on an
 * unpaced line, and where one is enough.
 */
export function leastCarriers(line: Line): Ratio | null {
  const tests = line.tasks.map(({ test }) => test);
  if (line.flow.pacing === "unpaced" || tests.every((test) => test === null)) return null;
  const again = redoSets(line.before, tests, orderOfWork(line.before, tests));
  const over: number[][] = line.tasks.map(() => []);
  for (const [test, value] of tests.entries())
    if (value?.failures === "repaired")
      for (const task of [...(again.get(test) ?? []), test]) over[task]!.push(test);
  const least = over.map((sent) => carriersOver(line, sent)).reduce(larger, ONE);
  return compare(least, ONE) > 0 ? least : null;
}
