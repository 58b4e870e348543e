import type { Line } from "../../src/line/line.js";
import type { Plan, Station } from "../../src/plan/plan.js";
import { PEOPLE_FIRST } from "../../src/solve/cost.js";
import { layOutWork } from "../../src/solve/lay-out-work.js";
import { addTask } from "../../src/solve/search/bit-sets.js";
import { FullLoads } from "../../src/solve/search/full-loads.js";
import { type Instance, layOutEnd } from "../../src/solve/search/instance.js";
import { runSearchBelow } from "../../src/solve/search/run-search.js";
import { OpenStation } from "../../src/solve/station/open-station.js";
import { toPlan } from "../../src/solve/to-plan.js";
import type { BlockPlan, Work } from "../../src/solve/work.js";
import type { Pace } from "../../src/time/pace.js";
import { idsOf, numbersOf, paceOf } from "./line-of.js";

/** The line as the search sees it, at a line cycle of 60 s unless a pace is given. */
export function floorProblemOf(line: Line, pace: Pace = paceOf(60), strictLimit = false): Work {
  return layOutWork(line, { pace, strictLimit, slowest: null, free: false });
}

/** The block that holds a task. */
export function blockOf(line: Line, problem: Work, id: string): number {
  const [task] = numbersOf(line, id);
  return problem.members.findIndex((tasks) => tasks.includes(task!));
}

export const blocksOf = (line: Line, problem: Work, ...ids: string[]): number[] =>
  ids.map((id) => blockOf(line, problem, id));

/** Stations as rows such as "S1: a b", "S2 x2: c by 2" (two places, two people at each) and "S3: d/left e/both by 2". */
export function rowsOf(line: Line, plan: Plan): string[] {
  return plan.stations.map((station) => rowOf(line, station));
}

function rowOf(line: Line, { id, tasks, sides, places, crew }: Station): string {
  const names = idsOf(line, tasks).map((name, at) => (sides === null ? name : `${name}/${sides[at]}`));
  return `${id}${places > 1 ? ` x${places}` : ""}: ${names.join(" ")}${crew > 1 ? ` by ${crew}` : ""}`;
}

export const rowsOfFloor = (line: Line, problem: Work, plan: BlockPlan | null): string[] | null =>
  plan === null ? null : rowsOf(line, toPlan(line, problem, plan));

/** The plan with the fewest people, then the fewest stations, proved; null where the rules leave none. */
export async function solveFloor(line: Line, pace: Pace = paceOf(60)): Promise<string[] | null> {
  const problem = floorProblemOf(line, pace);
  const any = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
  const limits = { nodes: 100_000, memory: 100_000 };
  const { plan, ended } = await runSearchBelow(problem, any, PEOPLE_FIRST, limits, () => null);
  if (ended !== "proved") throw new Error(`the search ended with ${ended}`);
  return rowsOfFloor(line, problem, plan);
}

/** A walk through the full loads of the first station, or of the second where some blocks are done at the first. */
export function startWalk(work: Work, placed: readonly number[]): { loads: FullLoads; instance: Instance } {
  const instance = layOutEnd(work, false);
  const latest = new Int32Array(instance.size).fill(work.size + 1);
  const loads = new FullLoads(instance, latest);
  const set = new Int32Array(instance.words);
  const station = instance.rules?.station ?? new OpenStation(work);
  station.startAfter(0, station.nothingCarried);
  for (const block of placed) station.take(block);
  for (const [task, block] of instance.original.entries()) if (placed.includes(block)) addTask(set, 0, task);
  const [closed] = station.closings();
  const carried = closed === undefined ? station.nothingCarried : station.carriedOn(closed)[0]!;
  station.startAfter(placed.length > 0 ? 1 : 0, carried);
  loads.start(set, 0, 0, instance.limit);
  return { loads, instance };
}
