import { describe, expect, it } from "vitest";
import * as cycles from "../../../src/plan/figures/cycle.js";
import { unitsPerHour } from "../../../src/plan/figures/output.js";
import { measurePlan, measureStations } from "../../../src/plan/measure.js";
import { crewOf, planOf } from "../../../src/plan/plan.js";
import { postsOf } from "../../../src/plan/post.js";
import { type Ratio, ratio, toDecimal } from "../../../src/time/ratio.js";
import { type FloorTerms, floorLine, planFrom, s } from "../../tools/floor-line.js";
import { paceOf, shortLine } from "../../tools/line-of.js";

/** Seconds with up to 3 decimals, or a plain share. */
const inSeconds = (micros: Ratio | number | null) =>
  micros === null
    ? null
    : Number(
        toDecimal(
          typeof micros === "number" ? ratio(micros, 1_000_000) : ratio(micros.num, micros.den * 1_000_000n),
          3,
        ),
      );
const plain = (value: Ratio | null) => (value === null ? null : Number(toDecimal(value, 4)));

describe("a two-person lift of 40 s beside 130 s of other work at 60 s", () => {
  const line = floorLine(["a 50", "b 40", "c 40", "lift 40"], { tasks: { lift: { people: 2 } } });
  const plan = planFrom(line, ["S1: a", "S2: b", "S3: c", "S4: lift"], { S4: 2 });

  it("is 210 person-seconds, and two people busy in the same 40 s", () => {
    const measures = measurePlan(line, paceOf(60), plan);
    expect(inSeconds(measures.workContent)).toBe(210);
    expect(measures.operators).toBe(5);
    expect(plain(measures.efficiencyAtPace)).toBe(0.7);
    expect(measureStations(line, paceOf(60), plan).map(({ idle }) => inSeconds(idle))).toEqual([
      10, 20, 20, 40,
    ]);
  });

  it("leaves its second person idle while one works alone", () => {
    const shared = planFrom(line, ["S1: a", "S2: b", "S3: c lift"], { S3: 2 });
    const [, , third] = measureStations(line, paceOf(90), shared);
    // 40 s by one, 40 s by two: 120 of 180 person-seconds.
    expect(inSeconds(third!.stationTime)).toBe(80);
    expect(inSeconds(third!.idle)).toBe(60);
    expect(crewOf(line, third!)).toBe(2);
  });
});

describe("a station with sides", () => {
  const line = floorLine(["L1 30", "R1 40 L1", "R2 5", "both 10 L1"], {
    tasks: { L1: { side: "left" }, R1: { side: "right" }, R2: { side: "right" }, both: { people: 2 } },
  });
  const plan = planFrom(line, ["S1: R2/right L1/left R1/right both/both"], { S1: 2 });
  const [station] = measureStations(line, paceOf(80), plan);

  it("starts a task when its side is free and what it needs is done, and is busy for as long as its longer side, while a unit stands until the latest end", () => {
    expect(station!.starts!.map(inSeconds)).toEqual([0, 0, 30, 70]);
    expect(inSeconds(station!.stationTime)).toBe(55);
    expect(inSeconds(station!.dwell)).toBe(80);
  });

  it("has a person at each side in use, and no idle time below 0", () => {
    expect(crewOf(line, station!)).toBe(2);
    expect(crewOf(line, { tasks: [0], sides: ["left"], persons: null })).toBe(1);
    expect(crewOf(line, { tasks: [0], sides: ["both"], persons: null })).toBe(2);
    // 30 + 40 + 5 + 2 x 10 = 95 of 160 person-seconds.
    expect(inSeconds(station!.idle)).toBe(65);
    expect(plain(measurePlan(line, paceOf(80), plan).efficiencyAtPace)).toBe(0.5938);
  });
});

describe("units that differ at a station with sides", () => {
  const models = [
    { id: "lefty", share: ratio(1, 2) },
    { id: "righty", share: ratio(1, 2) },
  ];
  const measure = (rows: readonly string[], terms: FloorTerms, station: string) => {
    const line = floorLine(rows, terms);
    const [measured] = measureStations(line, paceOf(80), planFrom(line, [station], { S1: 2 }));
    const { dwell, peakTime, starts, worstModel } = measured!;
    return [[dwell, peakTime, worstModel?.stationTime ?? null].map(inSeconds), starts!.map(inSeconds)];
  };

  it("take the mean of their own times: doors of 50 and 10 s or 10 and 50 s take 50 s, not 30", () => {
    const tasks = {
      l: { times: [s(50), s(10)], side: "left" },
      r: { times: [s(10), s(50)], side: "right" },
    } as const;
    expect(measure(["l 0", "r 0"], { models, tasks }, "S1: l/left r/right")).toEqual([
      [50, null, 50],
      [0, 0],
    ]);
    // One behind the other, every unit takes 60 s; the right starts after 50 or 10 s, on average after 30.
    expect(measure(["l 0", "r 0 l"], { models, tasks }, "S1: l/left r/right")).toEqual([
      [60, null, 60],
      [0, 30],
    ]);
  });

  it("take longer where work is due on them: 9 of 10 units 50 s, the tenth 100 s, are 55 s", () => {
    const tasks = { l: { side: "left" }, r: { side: "right" }, audit: { side: "left", every: 10 } } as const;
    expect(measure(["l 40", "r 50", "audit 60"], { tasks }, "S1: l/left r/right audit/left")).toEqual([
      [55, 100, null],
      [0, 0, 40],
    ]);
  });

  it("take longer by what is done again: 50 s, a tenth of 40 and of 30 s, and of 20 s of every 2nd unit", () => {
    const visits = ratio(11, 10);
    const tasks = {
      l: { side: "left", visits },
      r: { side: "right" },
      r2: { side: "right", visits },
      l2: { side: "left", visits, every: 2 },
    } as const;
    // Half of the units take max(40, 20 + 30) = 50 s, the others max(40 + 20, 50) = 60 s; 4 + 3 + 1 s are done again.
    const plan = "S1: l/left r/right r2/right l2/left";
    expect(measure(["l 40", "r 20", "r2 30", "l2 20"], { tasks }, plan)).toEqual([
      [63, 69, null],
      [0, 0, 20, 40],
    ]);
  });
});

describe("walking, machines and work of every so many units", () => {
  it("are figures of their own: 55 s by hand and 7 s on foot are 62 s", () => {
    const walking = { a: { walking: s(2) }, b: { walking: s(2) }, c: { walking: s(3) } };
    const line = floorLine(["a 20", "b 20", "c 15"], { tasks: walking });
    const [station] = measureStations(line, paceOf(60), planOf([[0, 1, 2]]));
    expect(
      [station!.stationTime, station!.manualTime, station!.walkingTime, station!.machineTime].map(inSeconds),
    ).toEqual([62, 55, 7, null]);
    expect(plain(station!.load)).toBe(1.0333);
    expect(inSeconds(station!.overload)).toBe(2);
  });

  it("count no machine time as work: 90 s by hand and 60 s by machine at 30 s are 3 people", () => {
    const line = floorLine(["a 30", "b 30", "c 30"], {
      tasks: { a: { machineTime: s(60), equipment: ["press", "jig"] } },
    });
    const stations = measureStations(line, paceOf(30), planOf([[0], [1], [2]]));
    expect(measurePlan(line, paceOf(30), planOf([[0], [1], [2]])).operators).toBe(3);
    expect(stations.map(({ machineTime }) => inSeconds(machineTime))).toEqual([60, 0, 0]);
    expect(stations.map(({ walkingTime }) => walkingTime)).toEqual([null, null, null]);
    expect(stations[0]!.equipment).toEqual([
      { name: "press", units: 3 },
      { name: "jig", units: 3 },
    ]);
    expect(stations[1]!.equipment).toEqual([]);
  });

  it.each([
    [22, 1],
    [25, 2],
  ])("need machines for load and run: 8 and %i s at 30 s are %i", (run, units) => {
    const line = floorLine(["a 8"], { tasks: { a: { machineTime: s(run), equipment: ["press"] } } });
    const [station] = measureStations(line, paceOf(30), planOf([[0]]));
    expect(station!.equipment).toEqual([{ name: "press", units }]);
  });

  it("count 100 s on every 10th unit as 10 s on average, and show 130 s on that unit", () => {
    const line = floorLine(["a 30", "b 100"], { tasks: { b: { every: 10 } } });
    const [first, second] = measureStations(line, paceOf(60), planOf([[0, 1]])).concat(
      measureStations(line, paceOf(60), planOf([[0]])),
    );
    expect(inSeconds(first!.stationTime)).toBe(40);
    expect(inSeconds(first!.peakTime)).toBe(130);
    expect(second!.peakTime).toBeNull();
  });
});

describe("models at a station", () => {
  const models = [
    { id: "city", share: ratio(4, 5) },
    { id: "cargo", share: ratio(1, 5) },
  ];
  const at45 = (tasks: FloorTerms["tasks"]) =>
    measureStations(
      floorLine(["a 0", "b 0"], { models, tasks: { ...tasks } }),
      paceOf(45),
      planOf([[0, 1]]),
    )[0]!;

  it("weigh 30 s at 80 % and 90 s at 20 % as 42 s, and the worst of them is 200 % of 45 s", () => {
    const station = at45({ a: { times: [s(30), s(90)] } });
    expect(inSeconds(station.stationTime)).toBe(42);
    expect(plain(station.load)).toBe(0.9333);
    expect({ ...station.worstModel, stationTime: inSeconds(station.worstModel!.stationTime) }).toEqual({
      model: 1,
      isOfAll: false,
      stationTime: 90,
      share: ratio(2),
    });
  });

  it("walk and run machines only where they have the task; of equal ones the first is the worst", () => {
    const station = at45({
      a: { times: [s(30), null], walking: s(5), machineTime: s(20) },
      b: { times: [s(0), s(35)] },
    });
    // 80 % of 35 s and 20 % of 35 s; of that on foot 80 % of 5 s.
    expect(
      [station.stationTime, station.manualTime, station.walkingTime, station.machineTime].map(inSeconds),
    ).toEqual([35, 31, 4, 16]);
    expect(station.worstModel!.model).toBe(0);
  });

  it("are none on a line of one product", () => {
    const line = shortLine(["a 30"]);
    expect(measureStations(line, paceOf(60), planOf([[0]]))[0]!.worstModel).toBeNull();
  });
});

describe("25 % of units that repeat the second of two steps of 6.1 and 6 min", () => {
  const visits = (first: Ratio, second: Ratio) => {
    const line = floorLine(["a 366", "b 360 a"], { tasks: { a: { visits: first }, b: { visits: second } } });
    const plan = planOf([[0], [1]]);
    const { cycleOfPlan, slowestStation } = measurePlan(line, paceOf(600), plan);
    return [
      inSeconds(cycleOfPlan),
      slowestStation,
      plain(unitsPerHour(line, cycles.cycleOfPlan(postsOf(line, paceOf(600), plan)))),
    ];
  };

  it("make the second the slowest: 7.5 min and 8 an hour where the repeat is always good", () => {
    expect(visits(ratio(1), ratio(5, 4))).toEqual([450, "S2", 8]);
  });

  it("leave 7.5 an hour where a second failure is scrapped: 1.25 / 0.9375 visits for a good unit", () => {
    expect(visits(ratio(16, 15), ratio(4, 3))).toEqual([480, "S2", 7.5]);
  });

  it("leave 7.5 an hour where it is repeated until it is good", () => {
    expect(visits(ratio(1), ratio(4, 3))).toEqual([480, "S2", 7.5]);
  });

  it("count by each visit in what is done by hand", () => {
    const line = floorLine(["a 366", "b 360 a"], { tasks: { b: { visits: ratio(5, 4), walking: s(8) } } });
    const [, second] = measureStations(line, paceOf(600), planOf([[0], [1]]));
    expect([second!.manualTime, second!.walkingTime].map(inSeconds)).toEqual([450, 10]);
  });
});

describe("20 % of units that visit the last two of four steps again", () => {
  it("make the last of 8, 6, 2 and 10 min take 12 min: 5 an hour", () => {
    const again = { visits: ratio(6, 5) };
    const line = floorLine(["a 480", "b 360", "c 120", "d 600"], { tasks: { c: again, d: again } });
    const plan = planOf([[0], [1], [2], [3]]);
    expect(plain(unitsPerHour(line, cycles.cycleOfPlan(postsOf(line, paceOf(720), plan))))).toBe(5);
  });
});

describe("plan-to of a station of the floor", () => {
  it("is its own where it has one, else that of the pace", () => {
    const line = floorLine(["a 40", "b 40"], { floor: [{ id: "S1", planTo: ratio(4, 5) }, { id: "S2" }] });
    const stations = measureStations(line, paceOf(60), planOf([[0], [1]]));
    expect(stations.map(({ stationLimit }) => inSeconds(stationLimit))).toEqual([48, 60]);
    expect(stations.map(({ load }) => plain(load))).toEqual([0.8333, 0.6667]);
  });
});

describe("skills that a station needs", () => {
  it("are those of its tasks, each once; none on a line without skills", () => {
    const line = floorLine(["a 40", "b 40"], { tasks: { a: { skills: ["press", "brakes"] } } });
    const measured = (of: typeof line) =>
      measureStations(of, paceOf(90), planOf([[0, 0], [1]])).map(({ skills }) => skills);
    expect(measured(line)).toEqual([["press", "brakes"], []]);
    expect(measured(floorLine(["a 40", "b 40"]))).toEqual([null, null]);
  });
});
