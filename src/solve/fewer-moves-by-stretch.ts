import { leastMoves } from "./bounds/least-moves.js";
import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "./cost.js";
import { isLong, NearToday } from "./improve/near-today.js";
import { stretchOfWork } from "./improve/stretch-of-work.js";
import { labelsOf, leastMovesTo } from "./moves-of-plan.js";
import type { runSearch } from "./search/run-search.js";
import { arrangeBlocks, positionsOf } from "./station/arrange-blocks.js";
import type { BlockPlan, Today, Work } from "./work.js";

export interface ByStretch {
  readonly plan: BlockPlan;
  readonly nodes: number;
  /** Why it ended before nothing more was found; null where it did not. */
  readonly ended: "time" | "interrupted" | null;
}

/**
 * Lowers the moves of a plan stretch by stretch along the line (a large neighbourhood, Shaw 1998): some neighbouring stations are filled
 * anew by the exact search with fewer moves than they have, the others stay, until no stretch gives any or the partial plans run out.
 * Longer stretches follow where short ones give no more.
 *
 * @param plan below the ceiling
 */
export async function fewerMovesByStretch(
  work: Work,
  today: Today,
  ceiling: Cost,
  plan: BlockPlan,
  { nodes: mostNodes, bound }: { readonly nodes: number; readonly bound: number },
  watch: (nodes: number, best: number) => ReturnType<Parameters<typeof runSearch>[3]>,
): Promise<ByStretch> {
  let best = plan;
  let cost = leastMovesTo(today, plan);
  let labels = labelsOf(today, plan);
  let nodes = 0;
  const settled = new Set<string>();
  for (const size of SIZES.filter((each) => each < (isLong(work) ? work.size * MOST_OF_LINE : work.size))) {
    for (let isBetter = true; isBetter && cost > bound; ) {
      isBetter = false;
      for (let from = 0; from < best.length && nodes < mostNodes; ) {
        const to = lastOf(best, from, size);
        const key = keyOf(best, from, to);
        if (!settled.has(key)) {
          const found = await lower(from, to);
          if (found === "time" || found === "interrupted") return { plan: best, nodes, ended: found };
          if (found) isBetter = true;
          else settled.add(key);
        }
        if (to === best.length - 1) break;
        from += Math.max(1, Math.floor((to - from + 1) / 3));
      }
    }
  }
  return { plan: best, nodes, ended: null };

  /** Looks for a plan of the stretch with fewer moves; whether one makes the whole plan move less. */
  async function lower(from: number, to: number): Promise<boolean | "time" | "interrupted"> {
    // The beams of a stretch are mostly too short to ask.
    const early = await watch(nodes, cost);
    if (early !== null) return early;
    const stretch = stretchOfWork(work, today, best, from, to, labels);
    const spare = mostPeople(ceiling) - costOf(best).people;
    const below = { people: costOf(stretch.plan).people + spare + 1, stations: 0 };
    const bound = leastMoves(stretch.work, stretch.today, below);
    const moves = leastMovesTo(stretch.today, stretch.plan);
    const near = new NearToday(stretch.work, stretch.today, below, moves, bound);
    for (const _ of near.widen(Math.min(NODES_A_STRETCH, mostNodes - nodes))) {
      const reason = await watch(nodes + near.nodes, cost);
      if (reason !== null) return reason;
    }
    nodes += near.nodes + 1;
    return near.plan !== null && keep(stretch.put(near.plan));
  }

  function keep(found: BlockPlan): boolean {
    const whole = arrangeBlocks(work, positionsOf(work, found));
    if (whole === null || !isCheaper(costOf(whole), ceiling, PEOPLE_FIRST)) return false;
    const moves = leastMovesTo(today, whole);
    if (moves >= cost) return false;
    best = whole;
    labels = labelsOf(today, whole);
    cost = moves;
    return true;
  }
}

const mostPeople = ({ people, stations }: Cost): number => (stations > 0 ? people : people - 1);

/** The last station of a stretch from one on that has about so many blocks. */
function lastOf(plan: BlockPlan, from: number, size: number): number {
  let to = from;
  for (let blocks = plan[from]!.blocks.length; to + 1 < plan.length; to++) {
    blocks += plan[to + 1]!.blocks.length;
    if (blocks > size && to > from) break;
  }
  return to;
}

const keyOf = (plan: BlockPlan, from: number, to: number): string =>
  plan
    .slice(from, to + 1)
    .map(({ position, blocks }) => `${position}: ${blocks.toSorted((one, two) => one - two).join()}`)
    .join("|");

/** Blocks of a stretch. */
const SIZES = [12, 24, 48, 96];
/** A stretch of nearly a whole long line is what beams have filled already. */
const MOST_OF_LINE = 9 / 10;
/** One stretch gets so many partial plans. */
const NODES_A_STRETCH = 400;
