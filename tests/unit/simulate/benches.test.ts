import { describe, expect, it } from "vitest";
import { benchesToRun, lineBeside } from "../../../src/benches/bench-of-plan.js";
import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { ONE_PERSON, type Plan } from "../../../src/plan/plan.js";
import { helpWords } from "../../../src/report/words/simulate-words.js";
import { replicationsOf } from "../../../src/simulate/run-again-and-again.js";
import { simulateLine } from "../../../src/simulate/simulate-line.js";
import { paceFromCycle } from "../../../src/time/pace.js";
import { ratio, toNumber } from "../../../src/time/ratio.js";
import { exactRate } from "./markov-chain.js";
import { GIVEN } from "./simulated.js";

const [HOUR, SECOND] = [3_600_000_000, 1_000_000];

interface Asked {
  readonly line: Line;
  readonly plan: Plan;
  /** In seconds. */
  readonly cycle: number;
}

/** A station of one task, and a bench of another one that it needs; and what else the file says. */
function withBench(station: number, bench: number, { terms = "", also = "", cycle = station } = {}): Asked {
  const text = [
    `unit: s\n${also}`,
    `benches: {B1: {tasks: build${terms === "" ? "" : `, ${terms}`}}}`,
    `tasks: {build: ${bench}, fit: {time: ${station}, after: build}}`,
  ];
  const { line, findings } = readLine("line.yaml", `${text.join("\n")}\n`);
  if (line === null) throw new Error(JSON.stringify(findings));
  const plan = {
    stations: [{ ...ONE_PERSON, id: "S1", tasks: [1] }],
    benches: [{ ...ONE_PERSON, id: "B1", tasks: [0] }],
  };
  return { line, plan, cycle };
}

function askedOf({ line, plan, cycle }: Asked) {
  const pace = paceFromCycle(cycle * SECOND);
  const benches = { whole: line, benches: benchesToRun(line, pace, plan) };
  return { line: lineBeside(line, plan), plan, benches, lineCycle: null };
}

function runsOf(asked: Asked, hours: number, { warmUp = 0, replications = 1, models = [0] } = {}) {
  const length = { seed: 1, replications, hours: hours * HOUR, warmUp: warmUp * HOUR };
  return [...replicationsOf({ ...askedOf(asked), ...length, models })].filter((run) => run !== null);
}

describe("Where nothing varies, a bench is arithmetic:", () => {
  it("sets of 100 s hold a station of 60 s for 40 s a unit", () => {
    const [run] = runsOf(withBench(60, 100), 1);
    // Set k is there at 100 k, unit k leaves at 100 k + 60: 35 of them by 3,560 s.
    expect(run!.left).toBe(35);
    // 100 s for the first set, then 40 s each, the 36th unit included: 100 + 35 x 40.
    expect(run!.stations[0]!.times).toMatchObject({
      waiting: 1500 * SECOND,
      busy: 2100 * SECOND,
      starved: 0,
    });
    expect(run!.benches![0]!.times).toEqual({ busy: HOUR, starved: 0, blocked: 0 });
    expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished);
  });

  it("a bench that is faster fills its room and stops", () => {
    const [run] = runsOf(withBench(60, 40, { terms: "space: 3" }), 1, { warmUp: 1 });
    expect(run!.left).toBe(60);
    expect(run!.stations[0]!.times.waiting).toBe(0);
    // A set a minute, 40 s of work each; what it builds next waits for 20 s.
    expect(run!.benches![0]!.times).toEqual({ busy: 2400 * SECOND, starved: 0, blocked: 1200 * SECOND });
    expect(run!.benches![0]!.stock.every(({ least, greatest }) => least === 3 && greatest === 3)).toBe(true);
  });

  it("a bench of two shifts beside a line of one builds in the evening what the line takes in the morning", () => {
    const asked = withBench(30, 40, {
      terms: "shifts: 2, space: 30",
      also: "calendar: {shifts: {day: {length: 1 h}}}",
    });
    const { benches } = askedOf(asked).benches;
    // The line takes 120 an hour and the bench builds 90 beside it: 30 lie there in the morning.
    expect(benches[0]).toMatchObject({ start: 30, room: 30 });
    const [run] = runsOf(asked, 2);
    /*
     * Unit k asks at 30 (k - 1) for one of 30 + whole (30 (k - 1) / 40) sets: units 118, 119 and 120 wait 10 s each, the last one until the
     * evening. Then the room is full after 30 x 40 s and one more set is held from 31 x 40 = 1,240 s of the evening on until the next
     * morning's first asks 30 s after its start: 3,600 + 30 - 1,240 = 2,390 s. In the second morning none waits: 119 + 120.
     */
    expect(run!.left).toBe(239);
    expect(run!.stations[0]!.times.waiting).toBe(30 * SECOND);
    expect(run!.benches![0]!.times).toEqual({ busy: 8410 * SECOND, starved: 0, blocked: 2390 * SECOND });
    expect(run!.benches![0]!.watched).toBe(3 * HOUR);
  });

  it("a bench serves only the units that carry its parts, those of a share evenly", () => {
    const [run] = runsOf(withBench(60, 150, { terms: "share: 40 %" }), 10, { warmUp: 1 });
    // Two of five units carry them: a set is asked for every 150 s on average, which the bench just builds.
    expect(run!.left).toBe(600);
    const [slow] = runsOf(withBench(60, 300, { terms: "share: 40 %" }), 10, { warmUp: 10 });
    expect(slow!.left).toBe(300);
  });

  it("a bench of two stations builds as fast as the slower one", () => {
    const text = [
      "unit: s",
      "benches: {B1: {tasks: [cut, weld], stations: 2}}",
      "tasks: {cut: 30, fit: {time: 10, after: weld}, weld: {time: 50, after: cut}}",
    ];
    const { line } = readLine("line.yaml", `${text.join("\n")}\n`);
    const plan = {
      stations: [{ ...ONE_PERSON, id: "S1", tasks: [1] }],
      benches: [{ ...ONE_PERSON, id: "B1", tasks: [0, 2] }],
    };
    const [run] = runsOf({ line: line!, plan, cycle: 60 }, 1, { warmUp: 1 });
    expect(run!.left).toBe(72);
    // The welder works always, the cutter 30 s of 50 and then holds its set.
    expect(run!.benches![0]!.times).toEqual({
      busy: (3600 + 2160) * SECOND,
      starved: 0,
      blocked: 1440 * SECOND,
    });
  });

  it("a paced line stops for what is not there", () => {
    const [run] = runsOf(withBench(60, 100, { also: "pacing: indexing" }), 10, { warmUp: 1 });
    expect(run!.left).toBe(360);
    expect(run!.stations[0]!.times.waiting).toBe(0.4 * 10 * HOUR);
  });
});

/*
 * The bench is the first of two stations, its room the buffer between them, and the line the second: a queue M/M/1/K of K = B + 2 sets, what is
 * worked at the line and what is held at the bench included. Shares of n sets are (1 - r) r^n / (1 - r^(K + 1)), r = rate of the bench / rate
 * of the line (D. Gross, C. M. Harris, Fundamentals of Queueing Theory, from memory); the chain of two stations agrees.
 */
it.each([
  { room: 1, times: [60, 60], rate: 0.75 },
  { room: 4, times: [60, 60], rate: 6 / 7 },
  { room: 2, times: [60, 48], rate: 0.878153 },
])("A bench of exponential times with room for $room is a station before a buffer: $rate", async (one) => {
  const [bench, station] = one.times as [number, number];
  const chain = exactRate([60 / bench, 60 / station], [one.room]);
  expect(chain).toBeCloseTo(one.rate, 4);
  const ratioOfRates = station / bench;
  const weights = Array.from({ length: one.room + 3 }, (_, sets) => ratioOfRates ** sets);
  const all = weights.reduce((sum, each) => sum + each, 0);
  expect((60 / bench) * (1 - weights.at(-1)! / all)).toBeCloseTo(chain, 6);
  const stock = weights.reduce(
    (sum, each, sets) => sum + (each / all) * Math.min(one.room, Math.max(0, sets - 1)),
    0,
  );
  const asked = withBench(station, bench, {
    terms: `space: ${one.room}`,
    also: "variation: {shape: exponential}",
  });
  const answer = await simulateLine(askedOf(asked).line, asked.plan, {
    ...askedOf(asked),
    ...GIVEN,
    seed: 1,
    replications: 20,
    hours: 60 * HOUR,
    warmUp: 4 * HOUR,
    confidence: ratio(999, 1000),
    goesOn: async () => true,
  });
  if (answer === null) throw new Error("the run was stopped");
  const { mean, halfWidth } = answer.perHour;
  expect(Math.abs(toNumber(mean) - 60 * chain)).toBeLessThan(toNumber(halfWidth!));
  expect(toNumber(answer.benches[0]!.mean!)).toBeCloseTo(stock, 1);
  // A station that waits all the time that it does not work.
  const [shares] = [answer.stations[0]!.shares];
  expect(toNumber(shares.busy) + toNumber(shares.waiting)).toBeCloseTo(1, 9);
});

it("A unit that a test sends back has its parts already", () => {
  const text = [
    "unit: s",
    "benches: {B1: {tasks: build, space: 5}}",
    "tasks:",
    "  build: 10",
    "  fit: {time: 60, after: build}",
    "  prove: {time: 20, after: fit, test: {fail: 50 %, repair: 1 s, return-to: fit}}",
  ];
  const { line } = readLine("line.yaml", `${text.join("\n")}\n`);
  const plan = {
    stations: [
      { ...ONE_PERSON, id: "S1", tasks: [1] },
      { ...ONE_PERSON, id: "S2", tasks: [2] },
    ],
    benches: [{ ...ONE_PERSON, id: "B1", tasks: [0] }],
  };
  const [run] = runsOf({ line: line!, plan, cycle: 120 }, 40);
  const { built, stock } = run!.benches![0]!;
  // As many sets as units that began, and what lies there.
  expect(Math.abs(built - run!.left)).toBeLessThan(30);
  expect(stock.at(-1)!.greatest).toBe(5);
  expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished + run!.lost);
});

it("A workplace more at a bench that limits the line is among what would help", async () => {
  const asked = withBench(60, 100, { terms: "space: 5" });
  const answer = await simulateLine(askedOf(asked).line, asked.plan, {
    ...askedOf(asked),
    ...GIVEN,
    seed: 1,
    replications: 1,
    hours: 10 * HOUR,
    warmUp: HOUR,
    confidence: ratio(95, 100),
    asksWhatHelps: true,
    goesOn: async () => true,
  });
  if (answer === null) throw new Error("the run was stopped");
  expect(answer.bottlenecks).toEqual(["B1"]);
  // 36 sets an hour; with two places 72, and the station then makes its 60.
  expect(
    answer.whatHelps!.helps.map(({ kind, station, people, more }) => [
      kind,
      station,
      people,
      toNumber(more.mean),
    ]),
  ).toEqual([["workplace", "B1", 1, 24]]);
});

it("Room for a set more after a bench that is full now and then brings what theory says: from 3/4 to 4/5 of the rate", async () => {
  const asked = withBench(60, 60, { terms: "space: 1", also: "variation: {shape: exponential}" });
  const answer = await simulateLine(askedOf(asked).line, asked.plan, {
    ...askedOf(asked),
    ...GIVEN,
    seed: 1,
    replications: 12,
    hours: 40 * HOUR,
    warmUp: 2 * HOUR,
    confidence: ratio(95, 100),
    asksWhatHelps: true,
    goesOn: async () => true,
  });
  const room = answer!.whatHelps!.helps.find(({ kind }) => kind === "room")!;
  expect(room).toMatchObject({ station: "B1", sets: 1, people: 0, isShown: true });
  expect(Math.abs(toNumber(room.more.mean) - 3)).toBeLessThan(2 * toNumber(room.more.halfWidth!));
  expect(helpWords(room)).toBe("room for 1 set more after B1");
});

describe("At a bench", () => {
  const loadedAt = (also: string, terms: string, equipment: string): Asked => {
    const text = [
      `unit: s\n${also}`,
      `benches: {B1: {tasks: build${terms}}}`,
      `tasks: {build: {time: 20, machine-time: 90${equipment}}, fit: {time: 10, after: build}}`,
    ];
    const { line, findings } = readLine("line.yaml", `${text.join("\n")}\n`);
    if (line === null) throw new Error(JSON.stringify(findings));
    const plan = {
      stations: [{ ...ONE_PERSON, id: "S1", tasks: [1] }],
      benches: [{ ...ONE_PERSON, id: "B1", tasks: [0] }],
    };
    return { line, plan, cycle: 60 };
  };

  it("sets wait for rigs where a place holds more of them than there are", () => {
    // Each holds one for 110 s, and at 60 s a set it takes two: two sets in 110 s, and of three that stand there one always waits.
    const [run] = runsOf(loadedAt("equipment: {rig: 2}", ", holds: 3", ", equipment: rig"), 11, {
      warmUp: 11,
    });
    expect(run!.left).toBe(2 * 360);
    expect(run!.benches![0]!.times).toEqual({ busy: 22 * HOUR, starved: 11 * HOUR, blocked: 0 });
  });

  it("a person loads one set while others run: three in the 110 s that each stands there", () => {
    const [run] = runsOf(loadedAt("", ", holds: 3", ""), 11, { warmUp: 11 });
    expect(run!.left).toBe(3 * 360);
    expect(run!.benches![0]!.times).toEqual({ busy: 33 * HOUR, starved: 0, blocked: 0 });
  });
});
