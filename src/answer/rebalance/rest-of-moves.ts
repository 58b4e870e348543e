import { kindAt, type Work } from "../../solve/work.js";
import { costOfPassing, type MoveProblem } from "./move-problem.js";

/**
 * The least that the moves still ahead can cost: of the tasks that stand at a station today, so many must leave that the others
 * fit; and where there will be fewer stations, those given up lose all of theirs.
 *
 * @param left blocks not placed
 * @param next the first label still ahead
 * @param stationsLeft how many stations may still come; infinite where that is free
 */
export function leastMoves(
  problem: MoveProblem,
  left: readonly number[],
  next: number,
  stationsLeft: number,
): number {
  const kept: number[] = [];
  const lost: number[] = [];
  for (let label = next; label < problem.labels; label++) {
    const own = left
      .map((block) => ({ load: problem.floor.loads[block]!, cost: costOfPassing(problem, block, label) }))
      .filter(({ cost }) => cost > 0);
    const capacity = capacityOf(problem, label);
    kept.push(leastRemoval(own, capacity));
    lost.push(own.reduce((sum, { cost }) => sum + cost, 0));
  }
  const givenUp = Math.max(0, kept.length - stationsLeft);
  const extra = lost.map((all, at) => all - kept[at]!).sort((one, two) => one - two);
  return (
    kept.reduce((sum, each) => sum + each, 0) + extra.slice(0, givenUp).reduce((sum, each) => sum + each, 0)
  );
}

/** The most that the station of a label may hold, and the most of a block that stands there alone. */
function capacityOf(
  { floor, labelAt }: MoveProblem,
  label: number,
): { readonly shared: number; readonly alone: number } {
  const kinds = labelAt === null ? floor.kinds : [floor.kinds[kindAt(floor, labelAt.indexOf(label))]!];
  const sides = floor.sides === null ? 1 : 2;
  return {
    shared: sides * Math.max(...kinds.map(({ limits }) => limits.at(-1)!)),
    alone: sides * Math.max(...kinds.map(({ limits, alone }) => Math.max(limits.at(-1)!, alone.at(-1)!))),
  };
}

/** The longest leave first: no fewer can make room; each costs at least as much as the cheapest. */
function leastRemoval(
  own: readonly { readonly load: number; readonly cost: number }[],
  { shared, alone }: ReturnType<typeof capacityOf>,
): number {
  const timed = own.filter(({ load }) => load > 0).sort((one, two) => two.load - one.load);
  let load = timed.reduce((sum, each) => sum + each.load, 0);
  let count = 0;
  while (load > shared && !(timed.length - count === 1 && load <= alone)) load -= timed[count++]!.load;
  // One that stands alone may be any of them: it stays where the others leave.
  const others = timed.length - 1;
  if (count > others && timed.some((each) => each.load <= alone)) count = others;
  const cheapest = timed.map(({ cost }) => cost).sort((one, two) => one - two);
  return cheapest.slice(0, count).reduce((sum, each) => sum + each, 0);
}

/** Blocks that are not in a set. */
export function blocksLeft(floor: Work, set: Int32Array): number[] {
  const left: number[] = [];
  for (let block = 0; block < floor.size; block++)
    if (((set[block >>> 5]! >>> (block & 31)) & 1) === 0) left.push(block);
  return left;
}
