import type { Line } from "../line/line.js";
import { costOf, PEOPLE_FIRST } from "./cost.js";
import type { WorkLimits } from "./lay-out-work.js";
import { type LevelLine, levelLine } from "./level/level-line.js";
import { type Watch, watchTimes } from "./watch-times.js";
import type { BlockPlan } from "./work.js";

/** A plan whose slowest station is as fast as could be found, with as many people and stations. */
export type EvenLoads = LevelLine;

/** Evens out a plan without more people or stations: first the shortest cycle, then the smoothest loads at it. */
export function evenLoads(
  line: Line,
  limits: WorkLimits,
  plan: BlockPlan,
  nodes: number,
  checkpoint: Watch,
): Promise<EvenLoads> {
  const cost = costOf(plan);
  const aim = {
    aim: PEOPLE_FIRST,
    ceiling: { ...cost, stations: cost.stations + 1 },
    mostPeople: cost.people,
  };
  return levelLine(line, limits, plan, aim, nodes, watchTimes(line, checkpoint, "even-loads"));
}
