import fc from "fast-check";
import { expect, test } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { add, compare, multiply, ONE, type Ratio, ratio, ZERO } from "../../../src/time/ratio.js";

const SEED = 17;

const of = (...values: readonly unknown[]) => fc.constantFrom(...values);
const listOf = (value: fc.Arbitrary<unknown>, longest = 3) => fc.array(value, { maxLength: longest });
const oneOrMore = (value: fc.Arbitrary<unknown>) => fc.oneof(value, listOf(value));
/** A map with these keys, those that are not required now and then. */
function some(keys: Record<string, fc.Arbitrary<unknown>>, requiredKeys: string[] = []) {
  const values = Object.entries(keys).map(([key, value]): [string, fc.Arbitrary<unknown>] => [
    key,
    requiredKeys.includes(key)
      ? value
      : fc.oneof({ weight: 5, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary: value }),
  ]);
  return fc.record(Object.fromEntries(values));
}

const station = of("S1", "S2", "S3", "S4");
const skill = of("brakes", "press");
const gear = of("hoist", "jig");
const zone = of("frame", "paint");
const model = of("city", "cargo");
const seconds = of("0", "1", "20", "1 min");
const count = of("1", "2", "3");
const share = of("5 %", "50 %", "0.5 %");

/** A task by its id and those before it in the alphabet, which it may name. */
function taskValue(id: string, earlier: readonly string[]) {
  const named = of(...earlier, ...(earlier.length === 0 ? [id] : []));
  const arrow = some({ task: named, wait: seconds, stations: count, model }, ["task"]);
  const back = of(id, ...earlier);
  const repaired = some(
    { fail: share, repair: seconds, "return-to": back, retest: of("once", "scrap", "until-good") },
    ["fail", "repair", "return-to"],
  );
  return some(
    {
      time: fc.oneof(seconds, fc.record({ city: of("3", "-"), cargo: of("0", "-", "9") })),
      quantity: count,
      after: fc.oneof(named, arrow, listOf(fc.oneof(named, arrow), 2)),
      walking: seconds,
      "machine-time": seconds,
      every: count,
      kind: of("waste", "necessary"),
      side: of("left", "right", "either"),
      test: fc.oneof(repaired, fc.record({ scrap: share })),
      people: count,
      skill: oneOrMore(skill),
      equipment: oneOrMore(gear),
      zone,
      station: oneOrMore(station),
      "not-before": of("S1", "S2"),
      "not-after": of("S2", "S4"),
    },
    ["time"],
  );
}

const lineFile = some(
  {
    unit: of("s"),
    yield: share,
    stations: fc.uniqueArray(
      some(
        {
          id: station,
          zone,
          equipment: oneOrMore(gear),
          skills: oneOrMore(skill),
          "max-places": count,
          holds: count,
          "max-crew": count,
          "plan-to": share,
        },
        ["id"],
      ),
      { selector: (each) => each.id, minLength: 1 },
    ),
    "max-places": count,
    holds: count,
    "max-crew": count,
    equipment: fc.record({ hoist: count, jig: count }),
    people: some({ early: oneOrMore(skill), late: oneOrMore(skill) }),
    chains: listOf(fc.constantFrom(["a", "b"], ["b", "c", "d"], ["d", "a"]), 2),
    together: listOf(fc.constantFrom(["a", "b"], ["b", "c"]), 1),
    apart: listOf(fc.constantFrom(["c", "d"], ["a", "c"]), 1),
    models: of({ city: "60 %", cargo: "40 %" }, { city: "1", cargo: "2" }),
    sequence: listOf(model),
    "model-overload": share,
    tasks: fc.record({
      a: taskValue("a", []),
      b: taskValue("b", ["a"]),
      c: taskValue("c", ["a", "b"]),
      d: taskValue("d", ["b", "c"]),
    }),
  },
  ["unit", "models", "tasks"],
);

/** The load by its definition: the mean over the models of (task time + walking) x visits. */
function loadOf(line: Line, number: number): Ratio {
  const { times, walking, visits } = line.tasks[number]!;
  const parts = times.map((time, at) => {
    const ofModel = time === null ? ZERO : multiply(visits[at]!, ratio(time + walking));
    return multiply(line.models[at]?.share ?? ONE, ofModel);
  });
  return parts.reduce(add, ZERO);
}

test("Whatever keys a file has, it is read without a crash: a sound line, or errors that say why not", () => {
  let sound = 0;
  fc.assert(
    fc.property(lineFile, (content) => {
      const { line, findings } = readLine("line.yaml", JSON.stringify(content));
      expect(line === null).toBe(findings.some((each) => each.severity === "error"));
      if (line === null) return;
      sound++;
      expect(line.models.map((each) => each.share).reduce(add, ZERO)).toEqual(ONE);
      for (const [number, { load, visits, every, times, ...window }] of line.tasks.entries()) {
        expect(load).toEqual(loadOf(line, number));
        for (const [model, often] of visits.entries()) {
          if (times[model] === null) expect(often).toEqual(ZERO);
          else expect(compare(multiply(often, ratio(every)), ONE)).toBeGreaterThanOrEqual(0);
        }
        const { stations, notBefore, notAfter } = window;
        expect(times).toHaveLength(line.models.length);
        for (const each of [...(stations ?? []), notBefore ?? 0, notAfter ?? 0]) {
          expect(each).toBeLessThan(Math.max(1, line.floor.length));
        }
      }
      for (const { from, to } of line.waits) expect(line.before[to]).toContain(from);
    }),
    { seed: SEED, numRuns: 600 },
  );
  expect(sound).toBeGreaterThan(150);
});
