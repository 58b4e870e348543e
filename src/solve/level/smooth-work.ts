import { costOf, isCheaper } from "../cost.js";
import type { CycleProblem } from "../search/cycle-problem.js";
import { arrangeBlocks, positionsOf } from "../station/arrange-blocks.js";
import { OpenStation } from "../station/open-station.js";
import type { BlockPlan } from "../work.js";

/**
 * Moves and swaps of blocks that lower the sum of squared gaps to a cycle, until none does, or `isOver` says so between two tries:
 * for stations whose places or sides share their time.
 */
export async function smoothWork(
  problem: CycleProblem,
  plan: BlockPlan,
  cycle: bigint,
  isOver: () => Promise<boolean>,
): Promise<BlockPlan> {
  const work = problem.workAt(cycle);
  const station = new OpenStation(work);
  const gapsOf = (each: BlockPlan) =>
    each.reduce((sum, station) => sum + Number(cycle - problem.cycleOfStation(station, cycle)) ** 2, 0);
  const most = work.schedule?.sides == null ? MOST_TRIES : MOST_SIDED_TRIES;
  let [best, gaps, tries] = [plan, gapsOf(plan), 0];
  const tryOut = async (positionOf: readonly number[]): Promise<boolean> => {
    if (tries++ % ASKED_EVERY === 0 && (await isOver())) tries = most;
    if (tries >= most) return false;
    const other = arrangeBlocks(work, positionOf, station);
    if (other === null) return false;
    if (!isCheaper(costOf(other), problem.ceiling, problem.aim)) return false;
    const theirs = gapsOf(other);
    if (theirs >= gaps) return false;
    [best, gaps] = [other, theirs];
    return true;
  };
  for (let isBetter = true; isBetter && tries < most; ) {
    isBetter = false;
    const now = positionsOf(work, best);
    const used = best.map(({ position }) => position);
    search: for (let one = 0; one < work.size && tries < most; one++) {
      for (const position of used) {
        if (position !== now[one] && (await tryOut(now.with(one, position)))) {
          isBetter = true;
          break search;
        }
      }
      for (let two = one + 1; two < work.size && tries < most; two++) {
        if (now[one] !== now[two] && (await tryOut(now.with(one, now[two]!).with(two, now[one]!)))) {
          isBetter = true;
          break search;
        }
      }
    }
  }
  return best;
}

const MOST_TRIES = 20_000;
/** Every try looks for the best order of work at each station anew. */
const MOST_SIDED_TRIES = 2_000;
const ASKED_EVERY = 100;
