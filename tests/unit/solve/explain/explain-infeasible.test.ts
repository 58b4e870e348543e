import { describe, expect, it } from "vitest";
import { reasonClause } from "../../../../src/report/words/reason-words.js";
import { explainInfeasible } from "../../../../src/solve/explain/explain-infeasible.js";
import { ratio } from "../../../../src/time/ratio.js";
import { type FloorTerms, floorLine, s } from "../../../tools/floor-line.js";
import { paceWith } from "../../../tools/floor-random-line.js";
import { numbersOf, paceOf } from "../../../tools/line-of.js";

/** Why no plan exists at 60 s; null where one does. Every set of reasons here is a smallest one. */
async function reasonsOf(rows: readonly string[], terms: FloorTerms = {}, pace = paceOf(60)) {
  const found = await explainInfeasible(floorLine(rows, terms), pace, false);
  if (found !== null) expect(found.isSmallest).toBe(true);
  return found?.reasons.map((each) => reasonClause("s", each)) ?? null;
}

/** The earliest station of tasks that are held to sooner ones, by the number of the reason. */
const earliestOf = async (rows: readonly string[], terms: FloorTerms) => [
  ...(await explainInfeasible(floorLine(rows, terms), paceOf(60), false))!.earliest,
];

const floor = [{ id: "S1" }, { id: "S2" }, { id: "S3" }];

describe("tasks that must share a station and are too long for it", () => {
  it("are told with what lies between them, as a chain", async () => {
    expect(await reasonsOf(["X 25", "Y 20 X", "Z 25 Y"], { together: [["X", "Z"]] })).toEqual([
      "X and Z share a station (together)",
      "Y lies between them (X -> Y -> Z), so it stands there too",
      "X (25 s) + Y (20 s) + Z (25 s) = 70 s, above 60 s, the limit of a station",
    ]);
    // X and Z alone are 50 s.
    expect(await reasonsOf(["X 25", "Y 20", "Z 25"], { together: [["X", "Z"]] })).toBeNull();
  });

  it("are told without what lies between them or shares the station, where they exceed it alone", async () => {
    // t3 lies between t1 and t4, and t5 stands with them, but 26 + 34 s are 60 s already.
    const rows = ["t1 26", "t3 36 t1", "t4 34 t3", "t5 5"];
    const limit = paceOf(55.836);
    expect(await reasonsOf(rows, { together: [["t1", "t4"]] }, limit)).toEqual([
      "t1 and t4 share a station (together)",
      "t1 (26 s) + t4 (34 s) = 60 s, above 55.836 s, the limit of a station",
    ]);
    expect(await reasonsOf(rows, { together: [["t1", "t4", "t5"]] }, limit)).toEqual([
      "t1 and t4 share a station (together)",
      "t1 (26 s) + t4 (34 s) = 60 s, above 55.836 s, the limit of a station",
    ]);
  });

  it("are told by no more groups than it takes", async () => {
    const both = [
      ["a", "b"],
      ["b", "c"],
    ];
    expect(await reasonsOf(["a 25", "b 25", "c 25"], { together: both })).toEqual([
      "a and b share a station (together)",
      "b and c share a station (together)",
      "a (25 s) + b (25 s) + c (25 s) = 75 s, above 60 s, the limit of a station",
    ]);
    expect(await reasonsOf(["a 40", "b 40", "c 40"], { together: both })).toEqual([
      "b and c share a station (together)",
      "b (40 s) + c (40 s) = 80 s, above 60 s, the limit of a station",
    ]);
  });

  it("are not those of several places that hold them", async () => {
    const together = [["a", "b", "c"]];
    expect(await reasonsOf(["a 40", "b 40", "c 40"], { together, maxPlaces: 2 })).toBeNull();
    expect(await reasonsOf(["a 40", "b 40", "c 50"], { together, maxPlaces: 2 })).toEqual([
      "a, b and c share a station (together)",
      "a (40 s) + b (40 s) + c (50 s) = 130 s, above 60 s, the limit of a station at one place (2 are allowed)",
    ]);
  });
});

describe("a task held to early stations", () => {
  it("is told the earliest station behind all the work before it", async () => {
    // Of A and B one is enough to fill S1 beside P: 50 + 20 s. Both of them fill S1 and S2.
    const tasks = { P: { stations: [0] } };
    expect(await reasonsOf(["A 50", "B 50", "P 20 A B"], { floor, tasks })).toEqual([
      "P is fixed to S1",
      "B comes before P",
      "B (50 s) + P (20 s) = 70 s against 60 s, the limit of a station",
    ]);
    expect(await earliestOf(["A 50", "B 50", "P 20 A B"], { floor, tasks })).toEqual([[0, "S3"]]);
  });

  it("is told a station before another that would take all of the work", async () => {
    // 65 s fit S1 and S2, or the three places of S3 alone, which is fewer stations but later.
    const places = [{ id: "S1" }, { id: "S2" }, { id: "S3", maxPlaces: 3 }];
    const tasks = { t: { stations: [0] } };
    expect(await reasonsOf(["a 20", "b 20", "t 25 a b"], { floor: places, tasks })).toEqual([
      "t is fixed to S1",
      "a comes before t",
      "b comes before t",
      "a (20 s) + b (20 s) + t (25 s) = 65 s against 60 s, the limit of a station",
    ]);
    expect(await earliestOf(["a 20", "b 20", "t 25 a b"], { floor: places, tasks })).toEqual([[0, "S2"]]);
  });

  it("is told by the windows alone where no time matters", async () => {
    const tasks = { P: { notBefore: 1 }, A: { notAfter: 0 } };
    expect(await reasonsOf(["P 20", "A 20 P"], { floor, tasks })).toEqual([
      "A may not stand after S1",
      "P may not stand before S2",
      "P comes before A",
    ]);
  });
});

describe("each kind of requirement is named where it is a reason", () => {
  const rows = ["A 40", "B 40"];
  const sum = "A (40 s) + B (40 s) = 80 s against 60 s, the limit of a station";
  const both = <T>(task: T) => ({ A: task, B: task });

  it("a zone of the floor, and two zones at one station", async () => {
    const zones = [{ id: "S1", zone: "paint" }, { id: "S2" }];
    expect(await reasonsOf(rows, { floor: zones, tasks: both({ zone: "paint" }) })).toEqual([
      "A needs the zone paint, which only S1 has",
      "B needs the zone paint, which only S1 has",
      sum,
    ]);
    const tasks = { A: { zone: "paint" }, B: { zone: "assembly" } };
    expect(await reasonsOf(["A 10", "B 10"], { tasks, together: [["A", "B"]] })).toEqual([
      "A needs the zone paint",
      "B needs the zone assembly",
      "A and B share a station (together)",
    ]);
  });

  it("equipment that stands somewhere, and equipment of which too few exist", async () => {
    const tasks = both({ equipment: ["press"] });
    const stands = [{ id: "S1", equipment: ["press"] }, { id: "S2" }];
    expect(await reasonsOf(rows, { floor: stands, tasks })).toEqual([
      "A needs press, which only S1 has",
      "B needs press, which only S1 has",
      sum,
    ]);
    expect(await reasonsOf(rows, { tasks, equipment: { press: 1 } })).toEqual([
      "A needs press",
      "B needs press",
      "only 1 press exists",
      sum,
    ]);
  });

  it("skills of stations, and skills of people", async () => {
    const tasks = both({ skills: ["brakes"] });
    const skilled = [
      { id: "S1", skills: ["brakes"] },
      { id: "S2", skills: [] },
    ];
    expect(await reasonsOf(rows, { floor: skilled, tasks })).toEqual([
      "A needs the skill brakes, which only S1 has",
      "B needs the skill brakes, which only S1 has",
      sum,
    ]);
    const people = [{ id: "early-1", skills: ["brakes", "wheels"] }];
    expect(await reasonsOf(rows, { people, tasks })).toEqual([
      "A needs the skill brakes",
      "B needs the skill brakes",
      "the people listed have these skills (early-1: brakes, wheels); at each place one person has all that its tasks need",
      sum,
    ]);
  });

  it("tasks together that are kept apart", async () => {
    const terms = { together: [["A", "B"]], apart: [["A", "B", "C"]] };
    expect(await reasonsOf(["A 10", "B 10", "C 10"], terms)).toEqual([
      "A and B share a station (together)",
      "no two of A, B and C share a station (apart)",
    ]);
  });

  it("waits, for the next station or for more", async () => {
    const glue = ["glue 10", "fit 10 glue"];
    const next = { together: [["glue", "fit"]], waits: [{ after: "fit", on: "glue" }] };
    expect(await reasonsOf(glue, next)).toEqual([
      "glue and fit share a station (together)",
      "fit waits for glue, so it stands at a later station",
    ]);
    const later = { floor, tasks: { fit: { notAfter: 1 } } };
    expect(await reasonsOf(glue, { ...later, waits: [{ after: "fit", on: "glue", stations: 2 }] })).toEqual([
      "fit may not stand after S2",
      "fit waits for glue, so it stands 2 stations later or more",
    ]);
  });

  it("sides that wait for each other, and two people at both sides", async () => {
    const sides = { L1: { side: "left" }, R1: { side: "right" } } as const;
    expect(await reasonsOf(["L1 30", "R1 40 L1"], { tasks: sides, together: [["L1", "R1"]] })).toEqual([
      "L1 and R1 share a station (together)",
      "L1 comes before R1",
      "for L1 (30 s) and R1 (40 s) a unit stands 70 s at the least, and it may stand 60 s at a station",
    ]);
    const two = { A: { side: "left" }, B: { people: 2 } } as const;
    expect(await reasonsOf(["A 40", "B 30"], { tasks: two, together: [["A", "B"]] })).toEqual([
      "B needs 2 people at once",
      "A and B share a station (together)",
      "A (40 s) + B (30 s) = 70 s against 60 s, the limit of a station",
    ]);
    const left = { A: { side: "left" }, B: { side: "left" } } as const;
    expect(await reasonsOf(["A 40", "B 30"], { tasks: left, together: [["A", "B"]] })).toEqual([
      "A is done on the left",
      "B is done on the left",
      "A and B share a station (together)",
      "A (40 s) + B (30 s) = 70 s against 60 s, the limit of a station",
    ]);
  });

  it("models and machines", async () => {
    const models = [
      { id: "city", share: ratio(1, 2) },
      { id: "cargo", share: ratio(1, 2) },
    ];
    // 20 s of city and 80 s of cargo, 50 s on average; 80 s are a third more than 60 s.
    const tasks = both({ times: [s(10), s(40)] });
    const loose = { models, tasks, together: [["A", "B"]] };
    expect(await reasonsOf(["A 0", "B 0"], { ...loose, modelOverload: ratio(1, 3) })).toBeNull();
    expect(await reasonsOf(["A 0", "B 0"], { ...loose, modelOverload: ratio(1, 5) })).toEqual(
      expect.arrayContaining([
        "A and B share a station (together)",
        "no model may exceed its stated overload",
      ]),
    );
    const press = { A: { equipment: ["press"], machineTime: s(25) } };
    const short = await reasonsOf(["A 8"], { tasks: press, equipment: { press: 1 }, holds: 2 }, paceOf(30));
    expect(short).toEqual(expect.arrayContaining(["A needs press", "only 1 press exists"]));
    expect(await reasonsOf(["A 8"], { tasks: press, equipment: { press: 1 } }, paceOf(30))).toEqual([
      "for A (8 s and 25 s of machine) a unit stands 33 s at the least, and it may stand 30 s at a station",
    ]);
  });

  it("how long equipment is kept where places share it, and no task more than that takes", async () => {
    // One rig at one place: three holds of 30 s are 90 s. Held by c as well, a, b and e would overlap: 60 + 10 s are too long, too.
    const rig = { equipment: ["rig"] };
    const terms: FloorTerms = {
      tasks: { a: rig, b: rig, e: rig, c: rig },
      equipment: { rig: 1 },
      maxCrew: 2,
      holds: 2,
    };
    const reasons = ["a needs rig", "b needs rig", "e needs rig", "only 1 rig exists"];
    const rows = ["a 30", "b 30", "e 30", "c 10 a b e"];
    expect(await reasonsOf(rows, terms, paceOf(65))).toEqual(reasons);
    const line = floorLine(rows, terms);
    const found = await explainInfeasible(line, paceOf(65), false);
    expect(found?.timed).toEqual(numbersOf(line, "a", "b", "e"));
    // 40 s of hands fit two places, and one rig has 30 s for a unit.
    const long = { tasks: { a: rig, b: rig }, equipment: { rig: 1 }, maxPlaces: 2 };
    expect(await reasonsOf(["a 16", "b 40"], long, paceOf(30))).toEqual(["b needs rig", "only 1 rig exists"]);
  });

  it("a crew that shares the work, by what each may be loaded with, and how long a unit stands for them", async () => {
    const crew: FloorTerms = { together: [["A", "B", "C"]], maxCrew: 2 };
    expect(await reasonsOf(["A 40", "B 40", "C 50"], crew)).toEqual([
      "A, B and C share a station (together)",
      "A (40 s) + B (40 s) + C (50 s) = 130 s against 60 s, the limit of a station for each of 2 people",
    ]);
    expect(await reasonsOf(["A 40", "B 40 A", "C 10"], crew)).toEqual([
      "A, B and C share a station (together)",
      "A comes before B",
      "for A (40 s) and B (40 s) a unit stands 80 s at the least, and it may stand 60 s at a station",
    ]);
    // Two people share 80 s; C is too long for anybody.
    expect(await reasonsOf(["A 40", "B 40", "C 70"], { together: [["A", "B"]], maxCrew: 2 })).toEqual([
      "C (70 s) against 60 s, the limit of a station",
    ]);
  });

  it("a task that no station holds", async () => {
    expect(await reasonsOf(["A 70", "B 10"])).toEqual(["A (70 s) against 60 s, the limit of a station"]);
  });
});

it("gives no reasons where a plan exists, or where a task alone may exceed the limit", async () => {
  expect(await reasonsOf(["A 40", "B 40"])).toBeNull();
  const line = floorLine(["A 58"]);
  const pace = paceWith(60, 0, ratio(9, 10));
  expect(await explainInfeasible(line, pace, false)).toBeNull();
  const strict = await explainInfeasible(line, pace, true);
  expect(strict?.reasons.map((each) => reasonClause("s", each))).toEqual([
    "A (58 s) against 54 s, the limit of a station",
  ]);
});

describe("a sum that no station holds", () => {
  it("is held against the station that may do all of it, not against one with more places elsewhere", async () => {
    // Only S1 has the press; it has one place, though S2 may have three.
    const terms: FloorTerms = {
      tasks: { cups: { equipment: ["press"] } },
      floor: [
        { id: "S1", equipment: ["press"] },
        { id: "S2", maxPlaces: 3 },
      ],
    };
    expect(await reasonsOf(["load 40", "cups 50 load"], terms)).toEqual([
      "cups needs press, which only S1 has",
      "load comes before cups",
      "cups (50 s) + load (40 s) = 90 s against 60 s, the limit of a station",
    ]);
  });
});

it("looks for reasons no longer than the balance may, and ends where the user ends it", async () => {
  // Three tasks of odd seconds make at most 59 s of 60 s, and 8 x 59 = 472 s are less than the 478 s of all of them.
  const seconds = [17, 19, 21, 23].flatMap((time) => [time, time, time, time, time, time]).with(0, 15);
  const ids = seconds.map((_, at) => `t${at + 1}`);
  const floor = Array.from({ length: 8 }, (_, at) => ({ id: `S${at + 1}` }));
  const tasks = Object.fromEntries(ids.map((id) => [id, { notAfter: 7 }]));
  const line = floorLine(
    seconds.map((time, at) => `${ids[at]} ${time}`),
    { floor, tasks },
  );
  expect(await explainInfeasible(line, paceOf(60), false)).not.toBeNull();
  expect(await explainInfeasible(line, paceOf(60), false, { nodes: 2 })).toBeNull();
  let looks = 0;
  const checkpoint = () => {
    looks++;
    return "interrupted" as const;
  };
  await explainInfeasible(line, paceOf(60), false, { checkpoint });
  expect(looks).toBe(1);
});

describe("a rig that a unit keeps over tasks in a row, longer than it may stand at a station", () => {
  it("is told by those tasks alone, however many others the line has", async () => {
    // 20 + 30 + 15 = 65 s on the rig, above 60 s; one rig is at one station.
    const rows = ["X 20 Y0", "R 30 X", "Z 15 R", ...Array.from({ length: 12 }, (_, at) => `Y${at} 10`)];
    const rig = { equipment: ["rig"] };
    const reasons = await reasonsOf(rows, { tasks: { X: rig, R: rig, Z: rig }, equipment: { rig: 1 } });
    expect(reasons).toEqual([
      "X needs rig",
      "Z needs rig",
      "only 1 rig exists",
      "X comes before R",
      "R comes before Z",
      "R (30 s) + X (20 s) + Z (15 s) = 65 s against 60 s, the limit of a station",
    ]);
  });
});
