import type { Line } from "../../line/line.js";
import { orderOfWork, redoSets, visitsOfLine } from "../../line/visits.js";
import { add, compare, divide, larger, ONE, type Ratio } from "../../time/ratio.js";
import type { Plan } from "../plan.js";

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
 * What a good unit takes of them in a plan: the most full ones at a station. A failure takes another one from the station that it goes back to, while
 * its first one is empty from the test on. No fewer do; more where an empty one is not there when a unit waits for it. One on an unpaced line, and
 * where failures count on average, as a test sends units back to a task that is at no station.
 */
export function carriersOfPlan(line: Line, { stations }: Plan): Ratio {
  const stationOf = new Map(
    stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)).reverse(),
  );
  const tested = line.tasks.flatMap(({ test }, task) => {
    const from = stationOf.get(task);
    return test === null || from === undefined ? [] : [{ task, from, test }];
  });
  if (line.flow.pacing === "unpaced" || tested.length === 0) return ONE;
  const sent = tested.flatMap(({ task, from, test }) =>
    test.failures === "repaired" ? [{ task, from, to: stationOf.get(test.returnTo) }] : [],
  );
  if (sent.some(({ to }) => to === undefined)) return ONE;
  // Nowhere are there more than at a station that units are sent back to.
  return [...new Set([0, ...sent.map(({ to }) => to!)])]
    .map((station) => sent.filter(({ from, to }) => to! <= station && station <= from))
    .map((over) =>
      carriersOver(
        line,
        over.map(({ task }) => task),
      ),
    )
    .reduce(larger, ONE);
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
