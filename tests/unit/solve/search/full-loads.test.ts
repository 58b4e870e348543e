import { describe, expect, it } from "vitest";
import type { StationProblem } from "../../../../src/solve/problem.js";
import { addTask } from "../../../../src/solve/search/bit-sets.js";
import { FullLoads } from "../../../../src/solve/search/full-loads.js";
import { layOut } from "../../../../src/solve/search/instance.js";

interface Station {
  readonly placed?: readonly number[];
  readonly due?: readonly number[];
  readonly mostRoom?: number;
}

/** Every load of the first station, as sorted task numbers of the problem, and how often the walk paused. */
function walk(
  problem: StationProblem,
  { placed = [], due = [], mostRoom = problem.limit }: Station,
  steps = 1e6,
) {
  const instance = layOut(problem);
  const number = (task: number) => instance.original.indexOf(task);
  const latest = new Int32Array(instance.size).fill(99);
  for (const task of due) latest[number(task)] = 1;
  const set = new Int32Array(instance.words);
  for (const task of placed) addTask(set, 0, number(task));
  const loads = new FullLoads(instance, latest);
  loads.start(set, 0, 1, mostRoom);
  const found: string[] = [];
  let pauses = 0;
  for (;;) {
    const came = loads.advance(loads.steps + steps);
    if (came === "end") return { found: found.sort(), pauses };
    if (came === "pause") pauses++;
    else
      found.push(
        Array.from(loads.load.subarray(0, loads.count), (task) => instance.original[task]!)
          .sort()
          .join(""),
      );
  }
}

/** Limit 10. 0 (4) before 1 (5); 2 (3), 3 (6) and 4 (2) are free. */
const LINE: StationProblem = { limit: 10, times: [4, 5, 3, 6, 2], before: [[], [0], [], [], []] };

describe("the full loads of a station", () => {
  it("are all sets that fit, keep the arrows and leave no ready task room, each once", () => {
    // 0 1 leaves 1; 0 2 4 leaves 1; 0 3 leaves 0; 2 3 leaves 1; 3 4 leaves 2. Not 2 4, which leaves 5 for task 0.
    expect(walk(LINE, {}).found).toEqual(["01", "024", "03", "23", "34"]);
  });

  it("leave out what would leave more room than allowed", () => {
    expect(walk(LINE, { mostRoom: 0 }).found).toEqual(["03"]);
  });

  it("hold every ready task that is due", () => {
    expect(walk(LINE, { due: [2] }).found).toEqual(["024", "23"]);
    expect(walk(LINE, { due: [2, 3] }).found).toEqual(["23"]);
    expect(walk(LINE, { due: [0, 2, 3] }).found).toEqual([]);
  });

  it("start from the tasks that are placed", () => {
    // Without 0 and 3: 1 2 4 fit together.
    expect(walk(LINE, { placed: [0, 3] }).found).toEqual(["124"]);
  });

  it("always hold a ready task that takes no time", () => {
    expect(walk({ limit: 5, times: [0, 5, 3], before: [[], [], [0]] }, {}).found).toEqual(["01", "02"]);
  });

  it("are the same with pauses between any two steps", () => {
    const { found, pauses } = walk(LINE, {}, 1);
    expect(found).toEqual(walk(LINE, {}).found);
    expect(pauses).toBeGreaterThan(0);
  });

  it("are none when every task is placed", () => {
    expect(walk(LINE, { placed: [0, 1, 2, 3, 4] }).found).toEqual([]);
  });
});
