import { describe, expect, it } from "vitest";
import { matchStations } from "../../../../src/answer/rebalance/match-stations.js";
import { type Steps, spreadSteps, stepsOf } from "../../../../src/answer/rebalance/steps.js";
import type { Line } from "../../../../src/line/line.js";
import type { Plan } from "../../../../src/plan/plan.js";
import { seconds } from "../../../../src/time/show-values.js";
import { floorLine, planFrom } from "../../../tools/floor-line.js";
import { lineOf, paceOf, shortLine } from "../../../tools/line-of.js";

const plain = async (line: Line, from: Plan, to: Plan, cycle: number): Promise<Steps> => {
  return (await stepsOf(line, paceOf(cycle), from, to, matchStations(line, from, to)))!;
};

/** "B S1 to S2" for each move, a list a step. */
const shown = (line: Line, { steps }: Steps): string[][] =>
  steps.map(({ moves }) => moves.map(({ task, from, to }) => `${line.tasks[task]!.id} ${from} to ${to}`));

const cycles = ({ steps }: Steps): string[] => steps.map(({ cycle }) => seconds(cycle));

describe("four stations of 60, 60, 60 and 30 s that each hand 30 s on", () => {
  const line = shortLine(["A 30", "B 30 A", "C 30 B", "D 30 C", "E 30 D", "F 30 E", "G 30 F"]);
  const from = planFrom(line, ["S1: A B", "S2: C D", "S3: E F", "S4: G"]);
  const to = planFrom(line, ["S1: A", "S2: B C", "S3: D E", "S4: F G"]);

  it("begin with the last one, as any other would have 90 s to do", async () => {
    const steps = await plain(line, from, to, 60);
    expect(shown(line, steps)).toEqual([["F S3 to S4"], ["D S2 to S3"], ["B S1 to S2"]]);
    expect(cycles(steps)).toEqual(["60 s", "60 s", "60 s"]);
    expect([steps.isProved, seconds(steps.keeps), steps.keepsNew, steps.newPaceFrom]).toEqual([
      true,
      "60 s",
      true,
      0,
    ]);
  });

  it("end with the new plan, and each step starts where the one before ended", async () => {
    const { steps } = await plain(line, from, to, 60);
    expect(steps.map(({ plan }) => plan)).toEqual([
      planFrom(line, ["S1: A B", "S2: C D", "S3: E", "S4: F G"]),
      planFrom(line, ["S1: A B", "S2: C", "S3: D E", "S4: F G"]),
      to,
    ]);
  });
});

it("two stations of 60 s that swap 20 s for 20 s do so at once, since either would have 80 s to do", async () => {
  const line = shortLine(["A 40", "B 20", "C 40", "D 20"]);
  const steps = await plain(
    line,
    planFrom(line, ["S1: A B", "S2: C D"]),
    planFrom(line, ["S1: A D", "S2: C B"]),
    60,
  );
  expect(shown(line, steps)).toEqual([["D S2 to S1", "B S1 to S2"]]);
  expect(steps.isProved).toBe(true);
});

it("a swap goes together, and what has room goes by itself: of two swaps and a move three steps are the most", async () => {
  const line = shortLine(["A 40", "B 20", "C 40", "D 20", "E 40", "F 20", "G 40", "H 20", "I 10", "J 30"]);
  const from = planFrom(line, ["S1: A B", "S2: C D", "S3: E F", "S4: G H", "S5: I J", "S6: "]);
  const to = planFrom(line, ["S1: A D", "S2: C B", "S3: E H", "S4: G F", "S5: J", "S6: I"]);
  const today = { stations: from.stations.slice(0, 5) };
  const steps = await plain(line, today, to, 60);
  expect(
    shown(line, steps)
      .map(({ length }) => length)
      .toSorted(),
  ).toEqual([1, 2, 2]);
  expect(steps.isProved).toBe(true);
});

it("two tasks that belong together move in one step, the third by itself", async () => {
  const line = floorLine(["A 10", "B 10", "C 20", "D 10", "E 10", "F 5", "G 5", "H 5", "I 5"], {
    together: [["A", "B"]],
  });
  const steps = await plain(
    line,
    planFrom(line, ["S1: A B C D F G H I", "S2: E"]),
    planFrom(line, ["S1: D F G H I", "S2: A B C E"]),
    60,
  );
  // Either step takes 20 s off S1, so that the one whose moves come first in the order of work begins.
  expect(shown(line, steps)).toEqual([["A S1 to S2", "B S1 to S2"], ["C S1 to S2"]]);
  expect(steps.isProved).toBe(true);
});

it("the longest station is relieved first, and never gets longer than it is today", async () => {
  // 90 s and 70 s at a new cycle of 60 s; S3 has room for both.
  const line = shortLine(["A 60", "B 30", "C 60", "D 10", "E 10"]);
  const from = planFrom(line, ["S1: C D", "S2: A B", "S3: E"]);
  const to = planFrom(line, ["S1: C", "S2: A", "S3: B D E"]);
  const steps = await plain(line, from, to, 60);
  expect(shown(line, steps)).toEqual([["B S2 to S3"], ["D S1 to S3"]]);
  expect(cycles(steps)).toEqual(["70 s", "60 s"]);
  expect([seconds(steps.keeps), steps.keepsNew, steps.newPaceFrom, seconds(steps.slowest)]).toEqual([
    "90 s",
    false,
    2,
    "90 s",
  ]);
  expect(steps.steps.map(({ keepsNewPace }) => keepsNewPace)).toEqual([false, true]);
});

it("what is needed of one press moves at once, since there is no second one meanwhile", async () => {
  const line = floorLine(["A 10", "B 10", "C 10", "D 10"], {
    equipment: { press: 1 },
    tasks: { A: { equipment: ["press"] }, B: { equipment: ["press"] } },
  });
  const steps = await plain(
    line,
    planFrom(line, ["S1: A B C", "S2: D"]),
    planFrom(line, ["S1: C", "S2: A B D"]),
    60,
  );
  expect(shown(line, steps)).toEqual([["A S1 to S2", "B S1 to S2"]]);
  expect(steps.steps[0]!.bring).toEqual([
    { station: "S2", equipment: ["press"], parts: [], skills: [], people: 0, room: [] },
  ]);
  expect(steps.steps[0]!.takeAway).toEqual([
    { station: "S1", equipment: ["press"], parts: [], skills: [], people: 0, room: [] },
  ]);
});

it("a new station is manned with the first task that comes, a station given up is left with the last one", async () => {
  const line = shortLine(["A 10", "B 10", "C 10", "D 10"]);
  const steps = await plain(
    line,
    planFrom(line, ["S1: A B", "S2: C D"]),
    planFrom(line, ["S1: A", "S3: B D", "S2: C"]),
    60,
  );
  expect(steps.steps.map(({ bring }) => bring.map(({ station, people }) => [station, people]))).toEqual([
    [["S3", 1]],
    [],
  ]);
});

it("seven steps of a move each are spread over three days as 3, 2 and 2, over ten days as seven days", async () => {
  const tasks = Array.from({ length: 7 }, (_, at) => `T${at + 1}`).join(" ");
  const line = floorLine(["A 10", "B 10", ...tasks.split(" ").map((id) => `${id} 5`)], {
    floor: [{ id: "S1" }, { id: "S2" }],
  });
  const to = planFrom(line, ["S1: A", `S2: B ${tasks}`]);
  const { steps } = await plain(line, planFrom(line, [`S1: A ${tasks}`, "S2: B"]), to, 60);
  const { days } = spreadSteps(steps, 3);
  expect(days.map(({ first, last, moves }) => [first, last, moves])).toEqual([
    [1, 3, 3],
    [4, 5, 2],
    [6, 7, 2],
  ]);
  expect(days.map(({ plan }) => plan)).toEqual([steps[2]!.plan, steps[4]!.plan, to]);
  expect(spreadSteps(steps, 10).days.map(({ moves }) => moves)).toEqual([1, 1, 1, 1, 1, 1, 1]);
});

it("a second workplace is opened before the work comes that needs it", async () => {
  const line = lineOf("unit: s\nmax-places: 2\ntasks: {A: 30, B: 30, C: 30, D: 30}\n");
  const steps = await plain(
    line,
    planFrom(line, ["S1: A B", "S2: C D"]),
    planFrom(line, ["S1: A", "S2 x2: B C D"]),
    60,
  );
  expect(steps.steps.map(({ moves, setUps }) => [moves.length, setUps])).toEqual([
    [0, [{ station: "S2", placesBefore: 1, placesAfter: 2 }]],
    [1, []],
  ]);
});

it("told to end, the moves that are not ordered yet are done in one last step, asked first and after every 100 of 1,000 tasks", async () => {
  const tens = Array.from({ length: 100 }, (_, at) =>
    Array.from({ length: 10 }, (_, each) => `T${at * 10 + each}`),
  );
  const line = shortLine(tens.flat().map((id) => `${id} 1`));
  const from = planFrom(
    line,
    tens.map((ids, at) => `S${at + 1}: ${ids.join(" ")}`),
  );
  const to = planFrom(
    line,
    tens.flatMap((ids, at) => [
      `S${at + 1}: ${ids.slice(0, 8).join(" ")}`,
      `N${at + 1}: ${ids.slice(8).join(" ")}`,
    ]),
  );
  const matched = matchStations(line, from, to);
  const lengths = async (questions: number) => {
    let asked = 0;
    const goesOn = async () => ++asked < questions;
    const { steps, isProved } = (await stepsOf(line, paceOf(10), from, to, matched, goesOn))!;
    expect(steps.at(-1)!.plan).toEqual(to);
    return [steps.length, steps.at(-1)!.moves.length, isProved];
  };
  expect(await lengths(1)).toEqual([1, 200, false]);
  expect(await lengths(2)).toEqual([100, 101, false]);
  expect(await lengths(3)).toEqual([200, 1, false]);
  expect(await lengths(4)).toEqual([200, 1, true]);
});
