import { expect, it } from "vitest";
import type { Line } from "../../src/line/line.js";
import { cycleOfPlan } from "../../src/plan/figures/cycle.js";
import { unitsPerHour } from "../../src/plan/figures/output.js";
import { measurePlan, measureStations } from "../../src/plan/measure.js";
import type { Plan } from "../../src/plan/plan.js";
import { postsOf } from "../../src/plan/post.js";
import { verifyPlan } from "../../src/plan/verify-plan.js";
import { type Pace, paceFromDemand } from "../../src/time/pace.js";
import { type Ratio, ratio, toNumber } from "../../src/time/ratio.js";
import { MICROS_IN } from "../../src/time/units.js";
import { lineOf } from "../tools/line-of.js";
import { citation, readWorkedExamples, type Source } from "../tools/read-worked-examples.js";
import { lineOfExample } from "./line-of-example.js";

/** Times in the unit of the example. */
interface GivenStations {
  readonly id: string;
  readonly source: Source;
  readonly status: string;
  readonly unit: "s" | "min";
  readonly moving: number;
  /** The times of the tasks of each station. */
  readonly stations: readonly (readonly number[])[];
  readonly places?: readonly number[];
  readonly expected: {
    readonly cycle: number;
    readonly "lead-time"?: number;
    readonly loads?: readonly number[];
    readonly "work-content"?: number;
    readonly "rate-per-hour": number;
    readonly "efficiency-at-slowest"?: number;
    readonly units?: number;
    readonly "time-for-units"?: Readonly<Record<string, number>>;
  };
}

const { "given-stations": examples } = readWorkedExamples() as ReturnType<typeof readWorkedExamples> & {
  readonly "given-stations": readonly GivenStations[];
};

/** The tasks one after another, and the plan that puts them where the example does; at the rate of the example. */
function build(example: GivenStations): { line: Line; pace: Pace; plan: Plan } {
  const times = example.stations.flat();
  const id = (at: number) => `step-${String(at + 1).padStart(2, "0")}`;
  const tasks = times.map((time, at) => ({ id: id(at), time, after: at === 0 ? [] : [id(at - 1)] }));
  const line = lineOf(
    lineOfExample(example.id, example.unit, tasks, {
      demand: `${example.expected["rate-per-hour"]} per hour`,
      handling: `${example.moving} ${example.unit}`,
    }),
  );
  const pace = paceFromDemand({ ...line, demand: line.demand! });
  if (!pace.ok) throw new Error(pace.problem);
  let next = 0;
  const stations = example.stations.map((own, at) => ({
    id: `S${at + 1}`,
    tasks: own.map(() => next++),
    sides: null,
    persons: null,
    places: example.places?.[at] ?? 1,
    crew: 1,
  }));
  return { line: { ...line, maxPlaces: 2 }, pace: pace.value, plan: { stations } };
}

for (const example of examples) {
  const { source, unit, status, expected } = example;
  const given = (micros: Ratio | number) =>
    toNumber(
      typeof micros === "number"
        ? ratio(micros, MICROS_IN[unit])
        : ratio(micros.num, micros.den * BigInt(MICROS_IN[unit])),
    );

  it(`makes ${expected["rate-per-hour"]} an hour on the line ${example.id} (${citation(source)}; ${status})`, () => {
    const { line, pace, plan } = build(example);
    const measures = measurePlan(line, pace, plan);
    expect(verifyPlan(line, pace, plan, true)).toEqual([]);
    expect(given(measures.cycleOfPlan)).toBe(expected.cycle);
    expect(toNumber(unitsPerHour(line, cycleOfPlan(postsOf(line, pace, plan)))!)).toBeCloseTo(
      expected["rate-per-hour"],
      4,
    );
    if (expected["lead-time"] !== undefined) expect(given(measures.leadTime)).toBe(expected["lead-time"]);
    if (expected["work-content"] !== undefined) {
      expect(given(measures.workContent)).toBe(expected["work-content"]);
    }
    if (expected["efficiency-at-slowest"] !== undefined) {
      expect(toNumber(measures.efficiencyAtSlowest!)).toBeCloseTo(expected["efficiency-at-slowest"], 6);
    }
    if (expected.loads !== undefined) {
      const stations = measureStations(line, pace, plan);
      expect(stations.map(({ stationTime }) => given(stationTime))).toEqual(expected.loads);
    }
  });
}

/** Times for a number of units: so many cycles, and from an empty line first the way of one unit through it. */
it.each(examples.filter(({ expected }) => expected["time-for-units"] !== undefined))(
  "makes $expected.units units on the line $id in the time of the source",
  (example) => {
    const { line, pace, plan } = build(example);
    const measures = measurePlan(line, pace, plan);
    const [cycle, through, work] = [measures.cycleOfPlan, measures.leadTime, measures.workContent].map(
      (micros) => toNumber(ratio(micros.num, micros.den * BigInt(MICROS_IN[example.unit]))),
    ) as [number, number, number];
    const units = example.expected.units!;
    const found: Record<string, number> = {
      "after-filling": units * cycle,
      "from-empty": through + (units - 1) * cycle,
      "from-empty-each-at-its-own-pace": work + (units - 1) * cycle,
    };
    expect(found).toMatchObject(example.expected["time-for-units"]!);
  },
);
