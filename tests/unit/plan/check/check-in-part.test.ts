import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { benchesOfPlan, lineBeside } from "../../../../src/benches/bench-of-plan.js";
import type { Line } from "../../../../src/line/line.js";
import { type CheckReading, checkInPart } from "../../../../src/plan/check/check-in-part.js";
import { checkPlan } from "../../../../src/plan/check/check-plan.js";
import type { PlanFinding } from "../../../../src/plan/check/plan-finding.js";
import { readPlan } from "../../../../src/plan/file/read-plan.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";

const checkAt =
  (line: Line, seconds: number): CheckReading =>
  async (reading) => {
    const { plan } = reading;
    const pace = paceOf(seconds);
    const benches = benchesOfPlan(line, pace, plan);
    const given = { line: lineBeside(line, plan), pace, plan, reading, benches };
    return checkPlan({ ...given, least: null, fingerprints: [], lineFile: null }).findings;
  };

/** What is found of a plan text at a line cycle in seconds, whether it is a plan or none. */
async function find(line: Line, text: string, seconds: number): Promise<readonly PlanFinding[]> {
  const reading = readPlan("p.yaml", `format: linepoise-plan/1\n${text}`, line);
  const { plan } = reading;
  const check = checkAt(line, seconds);
  return plan === null ? checkInPart(line, reading, check) : check({ ...reading, plan });
}

const told = async (...given: Parameters<typeof find>) =>
  (await find(...given))
    .filter(({ rule }) => rule !== "made-for")
    .map(({ rule, station, message }) => `${rule} ${station ?? "-"}: ${message}`);

const four = (more = "") =>
  lineOf(`unit: s\n${more}\ntasks: {a: 30, b: {time: 30, after: a}, c: {time: 30, after: b}, d: 20}\n`);

describe("A plan with stations of one id", () => {
  it("is told of loads that are too much for one of them, and so for both together", async () => {
    const text = "stations: [{id: X, tasks: [a, b]}, {id: Y, tasks: [d]}, {id: X, tasks: [c]}]";
    expect(await told(four(), text, 55)).toEqual([
      'duplicate-station X: stations: "X" stands here a second time; the first is in line 2, column 17',
      "slower-than-pace X: X takes 60 s, 109.1 % of its working time of 55 s; the line then makes 60 good units an hour instead of 65.45",
    ]);
  });

  it("is told nothing that one station in their place would mend", async () => {
    const rules = "together: [[a, c]]";
    const text = "stations: [{id: X, tasks: [a]}, {id: Y, tasks: [b, d]}, {id: X, tasks: [c]}]";
    expect((await told(four(rules), text, 60)).map((each) => each.split(" ")[0])).toEqual([
      "duplicate-station",
    ]);
  });

  it("is told of a task that is listed twice, wherever its first place then is", async () => {
    const text =
      "stations: [{id: Z, tasks: [a]}, {id: X, tasks: [b, c]}, {id: Y, tasks: [d]}, {id: Z, tasks: [c]}]";
    expect((await told(four(), text, 60)).slice(1)).toEqual(["task-twice X: task c is at X and Z (line 2)"]);
  });

  it("is told of stations that the floor does not have once", async () => {
    const floor = "stations: [{id: X}, {id: Y}]";
    const text = "stations: [{id: X, tasks: [a]}, {id: Q, tasks: [b]}, {id: Q, tasks: [c, d]}]";
    expect((await told(four(floor), text, 60)).filter((each) => each.startsWith("behind-floor"))).toEqual([
      "behind-floor Q: Q does not stand on the floor, which has X, Y; it counts as one more station behind it",
    ]);
  });

  it("is told only what is wrong with them apart and with them as one station, and of every load that is too much for both", async () => {
    const line = four("together: [[a, d]]\napart: [[b, c]]\npolicy: {max-stations: 3}");
    const ids = ["X", "Y", "Z", "W"];
    // Where a task that is listed twice is done first hangs on how the ids are mended; that it is done too early does not.
    const keyOf = ({ rule, station, task, fact }: PlanFinding) => {
      if (fact?.kind === "out-of-order") return `${rule} ${task} needs ${fact.needs}`;
      return [rule, ["task-twice", "together"].includes(rule) ? "" : station?.replace("2", ""), task].join(
        " ",
      );
    };
    const station = fc.record({ id: fc.constantFrom(...ids), tasks: fc.subarray(["a", "b", "c", "d"]) });
    await fc.assert(
      fc.asyncProperty(fc.array(station, { minLength: 2, maxLength: 5 }), async (stations) => {
        const counts = new Map<string, number>();
        for (const { id } of stations) counts.set(id, (counts.get(id) ?? 0) + 1);
        fc.pre([...counts.values()].some((count) => count === 2) && Math.max(...counts.values()) === 2);
        const write = (all: typeof stations) =>
          `stations: [${all.map(({ id, tasks }) => `{id: ${id}, tasks: [${tasks.join(", ")}]}`).join(", ")}]`;
        const isSecond = (at: number) => stations.slice(0, at).some(({ id }) => id === stations[at]!.id);
        const apart = stations.map((each, at) => ({ ...each, id: isSecond(at) ? `${each.id}2` : each.id }));
        const joined = stations.flatMap((each, at) =>
          isSecond(at)
            ? []
            : [
                {
                  id: each.id,
                  tasks: stations.filter(({ id }) => id === each.id).flatMap(({ tasks }) => tasks),
                },
              ],
        );
        const [inPart, one, other] = await Promise.all(
          [stations, apart, joined].map((all) => find(line, write(all), 55)),
        );
        const known = [one!, other!].map((all) => new Set(all.map(keyOf)));
        const own = inPart!.filter(({ rule }) => rule !== "duplicate-station");
        expect(own.map(keyOf).filter((key) => !known.every((keys) => keys.has(key)))).toEqual([]);
        const inBoth = one!
          .map(keyOf)
          .filter((key) => key.startsWith("slower-than-pace") && known[1]!.has(key));
        const loads = own.filter(({ rule }) => rule === "slower-than-pace");
        const twice = (all: readonly PlanFinding[]) => all.filter(({ rule }) => rule === "task-twice");
        expect(new Set(twice(own).map(keyOf))).toEqual(new Set(twice(one!).map(keyOf)));
        expect(new Set(loads.map(keyOf))).toEqual(new Set(inBoth));
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});

describe("A plan of which something could not be read", () => {
  it("is told nothing of loads and sides that hangs on it", async () => {
    const text = "stations: [{id: X, places: two, tasks: [b, a]}, {id: Y, tasks: [c, d]}]";
    expect(await told(four(), text, 45)).toEqual([
      'count -: stations, places: "two" is not a number of places: a whole number from 1 is expected, in plain digits',
      "precedence X: X lists b before a, which b needs",
      "slower-than-pace Y: Y takes 50 s, 111.1 % of its working time of 45 s; it alone would hold the line to 72 good units an hour instead of 80",
    ]);
  });

  it("misses no task that may be in a list that could not be read, and judges the rest", async () => {
    const text = "stations: [{id: X, tasks: a}, {id: Y, tasks: [c, b]}, {id: Z, tasks: []}]";
    expect(await told(four(), text, 60)).toEqual([
      "wrong-kind -: stations, tasks: one value is written here; a list is expected, such as `tasks: [a]`",
      "precedence Y: Y lists c before b, which c needs",
      "empty-station Z: Z has no tasks",
    ]);
  });

  it("is judged whole where only other keys could not be read", async () => {
    const text = "made-for: {cycle: 3 s}\nstations: [{tasks: [a, b, b]}, {tasks: [c, b]}]";
    expect(await told(four(), text, 60)).toEqual([
      'unknown-key -: made-for: no key "cycle" is known here; nearest: line-cycle',
      "missing-task -: task d is at no station",
      "task-twice S1: task b is twice at S1 and at S2",
    ]);
  });
});
