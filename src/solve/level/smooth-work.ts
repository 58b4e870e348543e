import type { Line } from "../../line/line.js";
import type { Ratio } from "../../time/ratio.js";
import { type Aim, type Cost, costOf, isCheaper } from "../cost.js";
import { layOutWork, type WorkLimits } from "../lay-out-work.js";
import { partsOf } from "../parts.js";
import { arrangeBlocks, positionsOf } from "../station/arrange-blocks.js";
import type { BlockPlan } from "../work.js";
import { cycleOf } from "./cycle-of-work.js";

/** What a levelled plan must keep: it stays cheaper than the ceiling, and has no more than so many people. */
export interface LevelAim {
  readonly aim: Aim;
  readonly ceiling: Cost;
  readonly mostPeople: number;
}

/**
 * Moves and swaps that lower the sum of squared gaps to the slowest station, until none does, or `isOver` says so between two tries.
 */
export async function smoothWork(
  line: Line,
  limits: WorkLimits,
  plan: BlockPlan,
  { aim, ceiling }: Pick<LevelAim, "aim" | "ceiling">,
  isOver: () => Promise<boolean>,
): Promise<BlockPlan> {
  const problem = layOutWork(line, limits);
  const slowest = toParts(line, limits.slowest!);
  const gapsOf = (each: BlockPlan) =>
    each.reduce((sum, station) => {
      const gap = slowest - toParts(line, cycleOf(line, problem, limits, station));
      return sum + gap * gap;
    }, 0);
  const most = problem.sides === null ? MOST_TRIES : MOST_SIDED_TRIES;
  let [best, gaps, tries] = [plan, gapsOf(plan), 0];
  const tryOut = async (positionOf: readonly number[]): Promise<boolean> => {
    if (tries++ % ASKED_EVERY === 0 && (await isOver())) tries = most;
    if (tries >= most) return false;
    const other = arrangeBlocks(problem, positionOf);
    if (other === null) return false;
    if (!isCheaper(costOf(other), ceiling, aim)) return false;
    const theirs = gapsOf(other);
    if (theirs >= gaps) return false;
    [best, gaps] = [other, theirs];
    return true;
  };
  for (let isBetter = true; isBetter && tries < most; ) {
    isBetter = false;
    const now = positionsOf(problem, best);
    const used = best.map(({ position }) => position);
    search: for (let one = 0; one < problem.size; one++) {
      for (const position of used) {
        if (position !== now[one] && (await tryOut(now.with(one, position)))) {
          isBetter = true;
          break search;
        }
      }
      for (let two = one + 1; two < problem.size; two++) {
        if (now[one] !== now[two] && (await tryOut(now.with(one, now[two]!).with(two, now[one]!)))) {
          isBetter = true;
          break search;
        }
      }
    }
  }
  return best;
}

/** A time in parts of a microsecond, rounded down. */
export const toParts = (line: Line, time: Ratio): number => Number((time.num * partsOf(line)) / time.den);

const MOST_TRIES = 20_000;
/** Every try looks for the best order of work at each station anew. */
const MOST_SIDED_TRIES = 2_000;
const ASKED_EVERY = 100;
