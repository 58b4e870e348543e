import { describe, expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { peakTime } from "../../../src/plan/figures/kinds-of-time.js";
import { repairPeople } from "../../../src/plan/figures/repairs.js";
import { waitingUnits } from "../../../src/plan/figures/waits.js";
import { measurePlan } from "../../../src/plan/measure.js";
import { planOf } from "../../../src/plan/plan.js";
import { ratio } from "../../../src/time/ratio.js";
import { floorLine, s } from "../../tools/floor-line.js";
import { lineOf, paceOf } from "../../tools/line-of.js";

const measure = (line: Line, stations: number[][]) => measurePlan(line, paceOf(60), planOf(stations));

describe("glue that sets 600 s and a clamp that holds 7 200 s at 60 s", () => {
  const line = floorLine(["glue 60", "grip 60 glue", "free 60 grip"], {
    waits: [
      { on: "glue", after: "grip", wait: s(600) },
      { on: "grip", after: "free", wait: s(7200) },
    ],
  });

  it("hold 10 units and 120 clamps, add 7 800 s to the lead time, and take nobody's time", () => {
    const measures = measure(line, [[1], [2], [0]]);
    expect(measures.waiting!.map(({ units, fixtures }) => [units, fixtures])).toEqual([
      [ratio(10), 10],
      [ratio(120), 120],
    ]);
    expect(measures.leadTimeOfWaits).toEqual(ratio(s(7800)));
    expect(measures.operators).toBe(3);
    expect(measures.workContent).toEqual(ratio(s(180)));
    expect(measures.leadTime).toEqual(ratio(s(180 + 7800)));
  });

  it("need fixtures rounded up, more where units come again", () => {
    const again = floorLine(["glue 50", "grip 50 glue"], {
      waits: [{ on: "glue", after: "grip", wait: s(90) }],
      tasks: { glue: { visits: ratio(5, 4) } },
    });
    expect(measure(again, [[0], [1]]).waiting!.map(({ units, fixtures }) => [units, fixtures])).toEqual([
      [ratio(15, 8), 2],
    ]);
  });
});

describe("waits of parts side by side", () => {
  const line = floorLine(["a 10", "b 10", "c 10 a", "d 10 b", "e 10 c d"], {
    waits: [
      { on: "a", after: "c", wait: s(100) },
      { on: "b", after: "d", wait: s(30) },
      { on: "d", after: "e", stations: 2 },
    ],
  });

  it("add only the longer one; an arrow over stations alone holds no fixture", () => {
    const measures = measure(line, [[0, 1], [2, 3], [4]]);
    expect(measures.leadTimeOfWaits).toEqual(ratio(s(100)));
    expect(measures.waiting).toHaveLength(2);
  });

  it("add both where one is over before the other begins", () => {
    expect(measure(line, [[0], [2], [1], [3], [4]]).leadTimeOfWaits).toEqual(ratio(s(130)));
  });
});

it("A wait of 60 s or 120 s over two stations of 50 s adds nothing, or 20 s", () => {
  const added = (wait: number) => {
    const line = floorLine(["a 50", "b 50 a", "c 50 b", "d 50 c"], {
      waits: [{ on: "a", after: "d", wait: s(wait) }],
    });
    return measure(line, [[0], [1], [2], [3]]).leadTimeOfWaits;
  };
  expect([added(60), added(120)]).toEqual([ratio(0), ratio(s(20))]);
});

describe("repairs", () => {
  const test = {
    failures: "repaired",
    fail: ratio(3, 100),
    repair: s(360),
    returnTo: 0,
    retest: "once",
  } as const;
  const line = floorLine(["a 10", "check 10 a", "paint 10 check"], {
    tasks: {
      check: { test },
      paint: { test: { ...test, fail: ratio(1, 20), repair: s(1800), returnTo: 2 } },
    },
  });

  it("are work beside the line: 0.03 x 6 min and 0.05 x 30 min are 100.8 s, two people at 60 s", () => {
    const measures = measure(line, [[0, 1, 2]]);
    expect(measures.repairs).toEqual([
      { test: 1, repairs: ratio(3, 100), work: ratio(s(10.8)) },
      { test: 2, repairs: ratio(5, 100), work: ratio(s(90)) },
    ]);
    expect(measures.repairPeople).toBe(2);
    expect(measures.operators).toBe(1);
  });

  it("need one person for each line cycle of work that is begun", () => {
    expect(repairPeople(line, paceOf(60), [null, ratio(1, 6), null])).toBe(1);
    expect(repairPeople(line, paceOf(60), [null, ratio(1_000_001, 6_000_000), null])).toBe(2);
  });

  it("are null where nothing is repaired, scrapped units among them", () => {
    const scrapping = { failures: "scrapped", scrap: ratio(1, 10) } as const;
    const none = measure(floorLine(["a 10"], { tasks: { a: { test: scrapping } } }), [[0]]);
    expect([none.repairs, none.repairPeople]).toEqual([null, null]);
  });
});

describe("kinds of work", () => {
  it("share the work content, people counted, with what is not said as a share of its own", () => {
    const line = floorLine(["a 20", "b 30", "c 10", "d 10"], {
      tasks: { a: { kind: "value-adding", people: 2 }, b: { kind: "waste" }, c: { kind: "waste" } },
    });
    expect(
      measure(line, [
        [0, 1],
        [2, 3],
      ]).valueShares,
    ).toEqual([
      { kind: "value-adding", share: ratio(4, 9) },
      { kind: "necessary", share: ratio(0) },
      { kind: "waste", share: ratio(4, 9) },
      { kind: null, share: ratio(1, 9) },
    ]);
  });

  it("are null where no task says one, and where there is no work", () => {
    expect(measure(floorLine(["a 20"]), [[0]]).valueShares).toBeNull();
    expect(measure(floorLine(["a 0"], { tasks: { a: { kind: "waste" } } }), [[0]]).valueShares).toBeNull();
  });
});

it("of two models only the units that have both tasks of a wait stand in it", () => {
  const line = lineOf(
    'unit: s\nmodels: {cargo: 40 %, city: 60 %}\ntasks: {bond: 10, box: {time: {cargo: 20, city: "-"}, after: [{task: bond, wait: 10 min}]}}\n',
  );
  // 600 s of waiting at a line cycle of 60 s are 10 units, of which 40 % are cargo bikes.
  expect(waitingUnits(line, paceOf(60).lineCycle).map(({ units, fixtures }) => [units, fixtures])).toEqual([
    [ratio(4), 4],
  ]);
});

describe("a wait that one model asks for", () => {
  const line = lineOf(
    [
      "unit: s",
      "models: {city: 90 %, cargo: 10 %}",
      "tasks:",
      "  glue: 20",
      "  box: {time: 20, after: [{task: glue, model: cargo, wait: 10 min}, {task: glue, stations: 2}]}",
      "",
    ].join("\n"),
  );

  it("holds its share of the units: 0.1 x 600 s / 60 s is 1 fixture, two stations apart for all", () => {
    expect(line.waits).toMatchObject([{ wait: s(600), byModel: [s(600), 0], stations: 2 }]);
    expect(waitingUnits(line, paceOf(60).lineCycle).map(({ units, fixtures }) => [units, fixtures])).toEqual([
      [ratio(1), 1],
    ]);
  });
});

describe("the peak of a station with models", () => {
  it("is that of the model that takes longest with the rare work: 20 s + 100 s", () => {
    const line = lineOf(
      "unit: s\nmodels: {a: 90 %, b: 10 %}\ntasks: {base: 20, audit: {time: {a: 10, b: 100}, every: 10}}\n",
    );
    const [station] = planOf([[0, 1]]).stations;
    expect(peakTime(line, station!)).toEqual(ratio(s(120)));
  });

  it("counts what a test of every other unit sends back on that unit: 1.25 x 40 s + 1.25 x 20 s, not 1.125 x 40 s", () => {
    const line = lineOf(
      "unit: s\ntasks: {a: 40, b: {time: 20, every: 2, after: a, test: {fail: 20 %, repair: 50 s, return-to: a}}}\n",
    );
    const [station] = planOf([[0, 1]]).stations;
    expect(peakTime(line, station!)).toEqual(ratio(s(75)));
  });

  it("leaves out what that model does not have: 80 s + 20 s", () => {
    const line = lineOf(
      'unit: s\nmodels: {a: 50 %, b: 50 %}\ntasks: {x: {time: {a: 80, b: "-"}, every: 2}, y: {time: 20, after: x}}\n',
    );
    const [station] = planOf([[0, 1]]).stations;
    expect(peakTime(line, station!)).toEqual(ratio(s(100)));
  });
});
