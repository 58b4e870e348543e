import { leastMoves } from "./bounds/least-moves.js";
import { type Cost, type CostWithMoves, costOf, isCheaper, MOVES_FIRST, PEOPLE_FIRST } from "./cost.js";
import { fewerMovesByStretch } from "./fewer-moves-by-stretch.js";
import { isLong, NearToday, PROVABLE } from "./improve/near-today.js";
import { undoMoves } from "./improve/undo-moves.js";
import { leastMovesTo } from "./moves-of-plan.js";
import { isOver, MOST_RULED_STATES, runSearch } from "./search/run-search.js";
import type { BlockPlan, Today, Work } from "./work.js";

/** What the search for the fewest moves came to. */
export interface FewestMovesAnswer {
  /** The plan below the ceiling with the fewest moves; null where none was found. */
  readonly plan: BlockPlan | null;
  /** No plan below the ceiling costs fewer moves. */
  readonly bound: number;
  readonly nodes: number;
  readonly ended: "proved" | "nodes" | "time" | "interrupted";
}

/**
 * The fewest moves from today's plan to one that is cheaper than the ceiling: is there a plan without any move, with one, and so on
 * (iterative deepening, Korf 1985), each asked of the one search. With few moves allowed a partial plan along the line differs from
 * today's in few tasks only, so that there are few of them. Where partial plans run out, the rest of them lower the best plan known.
 * The aim is moves, then people, then stations, the last two as far as they are found.
 *
 * @param start a plan below the ceiling, if one is known
 * @param most plans whose moves cost more are not looked for; `today.mostMoves` says nothing here
 */
export async function fewestMoves(
  work: Work,
  today: Today,
  ceiling: Cost,
  start: BlockPlan | null,
  limits: { readonly nodes: number; readonly most: number },
  watch: (nodes: number, best: number, bound: number) => ReturnType<Parameters<typeof runSearch>[3]>,
): Promise<FewestMovesAnswer> {
  let plan: BlockPlan | null = null;
  let best: CostWithMoves = { ...NOTHING, moves: limits.most + 1 };
  const near = new NearToday(work, today, ceiling, best.moves, leastMoves(work, today, ceiling));
  let { bound } = near;
  let nodes = 0;
  const most = limits.nodes * Math.min(1, QUICK / work.size);
  const keep = (found: BlockPlan) => {
    const undone = undoMoves(work, today, found, ceiling);
    const size = { ...costOf(undone), moves: leastMovesTo(today, undone) };
    if (!isCheaper(size, best, MOVES_FIRST)) return;
    plan = undone;
    best = size;
    near.cost = Math.min(near.cost, size.moves);
  };
  const follow = async (stretches: Generator<null>) => {
    const before = nodes - near.nodes;
    let reason: Awaited<ReturnType<typeof watch>> = null;
    for (const _ of stretches) {
      reason = await watch(before + near.nodes, near.cost, near.bound);
      if (reason !== null) break;
    }
    nodes = before + near.nodes;
    bound = near.bound;
    if (near.plan !== null) keep(near.plan);
    return reason;
  };
  const byStretch = async () => {
    if (plan === null || bound >= best.moves) return null;
    const allowed = { nodes: Math.ceil(most * STRETCHES_SHARE), bound };
    const shorter = await fewerMovesByStretch(work, today, ceiling, plan, allowed, (more, moves) =>
      watch(nodes + more, moves, bound),
    );
    nodes += shorter.nodes;
    keep(shorter.plan);
    return shorter.ended;
  };
  // On a long line, whose proof is far, beams go on after what moves less than stretches came to; what they find is stretched again.
  const byBeamsAgain = async () => {
    if (plan === null || !isLong(work)) return null;
    const before = best.moves;
    const reason = await follow(near.widen(near.nodes + most * againShare(work)));
    return reason ?? (best.moves < before ? byStretch() : null);
  };
  const found = (): FewestMovesAnswer => {
    const least = Math.min(bound, best.moves);
    return { plan, bound: least, nodes, ended: bound >= best.moves ? "proved" : "nodes" };
  };
  const early = await watch(nodes, best.moves, bound);
  if (early !== null) return { plan: withinMoves(today, start, limits.most), bound, nodes, ended: early };
  if (start !== null) keep(start);
  const share = Math.min(1, PROVABLE / work.size);
  for (const look of [
    () => follow(near.widen(limits.nodes * FIRST_SHARE)),
    () => follow(near.price(most * PRICES_SHARE)),
    () => follow(near.widen(near.nodes + most * wideShare(work, near))),
    byStretch,
    byBeamsAgain,
  ]) {
    const reason = await look();
    if (reason !== null) return { plan, bound, nodes, ended: reason };
  }
  const searched = Math.ceil(most * share ** STEEPNESS);
  // Where positions matter, beams are as far from a proof as the search is.
  const provable = work.isPositional ? searched : Math.ceil(most * share);
  // What so few partial plans come to is not worth laying it out.
  if (provable < FEWEST_NODES) return found();
  const endsEarly = isLong(work);
  const sums = new Sums(today, best.moves);
  const known = bound;
  const rest = await follow(
    near.raiseBound(near.nodes + provable * WHOLE_SHARE, (least) => sums.from(least), endsEarly),
  );
  if (rest !== null) return { plan, bound, nodes, ended: rest };
  if (isBeyondTheSearch(work, known, bound, best.moves)) return { plan, bound, nodes, ended: "nodes" };
  if (searched < FEWEST_SEARCHED) return found();
  const proofFrom = nodes;
  const mostNodes = Math.min(limits.nodes, proofFrom + searched);
  const run = async (allowed: number, below: Cost, limit: number, firstOnly: boolean) => {
    const probe = { ...work, today: { ...today, mostMoves: allowed } };
    const from = { ceiling: below, aim: PEOPLE_FIRST, least: NOTHING, plan: null } as const;
    const left = { nodes: Math.max(0, Math.min(limit, mostNodes) - nodes), memory: MOST_RULED_STATES };
    const answer = await runSearch(probe, from, firstOnly ? { ...left, firstOnly } : left, (progress) =>
      watch(nodes + progress.nodes, best.moves, bound),
    );
    nodes += answer.nodes;
    return answer;
  };
  const ask = async (allowed: number, limit: number) => {
    const answer = await run(allowed, ceiling, limit, true);
    if (answer.plan !== null) keep(answer.plan);
    else if (answer.ended === "proved") bound = sums.from(allowed + 1);
    return answer.ended;
  };
  const forProof = Math.ceil((mostNodes - proofFrom) * PROOF_SHARE);
  let patience = endsEarly ? Math.ceil(forProof * FIRST_QUESTION) : forProof;
  while (bound < best.moves) {
    const allowed = Math.min(sums.from(bound + Math.floor(bound / STEPS)), best.moves - 1);
    const before = nodes;
    const ended = await ask(allowed, Math.min(before + patience, proofFrom + forProof));
    if (isOver(ended)) return { plan, bound, nodes, ended };
    if (ended !== "proved" && ended !== "first") break;
    // One move more takes a few times as long; on a long line only what comes soon is waited for.
    patience = Math.max(patience, MORE_A_QUESTION * (nodes - before));
  }
  // Beams know better plans of long lines than the rest would find.
  if (endsEarly) return found();
  // With how few moves a plan is found soon: the interval is halved.
  for (let low = bound; low < best.moves && bound < best.moves && nodes < mostNodes; ) {
    const allowed = Math.floor((low + best.moves - 1) / 2);
    const ended = await ask(allowed, nodes + Math.ceil((mostNodes - proofFrom) * TRY_SHARE));
    if (isOver(ended)) return { plan, bound, nodes, ended };
    if (ended !== "first") low = allowed + 1;
  }
  if (plan !== null) {
    const more = Math.ceil((mostNodes - proofFrom) * TRY_SHARE);
    const cheaper = await run(best.moves, best, nodes + more, false);
    plan = cheaper.plan ?? plan;
    if (isOver(cheaper.ended)) return { ...found(), ended: cheaper.ended };
  }
  return found();
}

/**
 * Which part of the partial plans wider beams may take. Where positions matter on a long line, more than a few are worth it only where
 * narrow ones came to no plan, and what is known moves far more than the bound.
 */
function wideShare(work: Work, { plan, cost, bound }: NearToday): number {
  const provable = PROVABLE / work.size;
  if (isLong(work) && work.isPositional)
    return Math.max(provable ** STEEPNESS / 2, plan === null && cost > FAR * bound ? WIDE_ON_FLOORS : 0);
  return Math.min(WIDE_SHARE, WIDE_OF_LONG * provable);
}

/** Which part of the partial plans beams may take that go on where stretches ended; a longer line takes longer over each. */
const againShare = ({ size }: Work): number => AGAIN_SHARE * Math.min(1, AGAIN_SOON / size);

/** A plan whose moves cost no more than so much, else null. */
const withinMoves = (today: Today, plan: BlockPlan | null, most: number): BlockPlan | null =>
  plan !== null && leastMovesTo(today, plan) <= most ? plan : null;

/** Where beams raise the bound of a long line, and not to the best plan, the one search raises it no further. */
const isBeyondTheSearch = (work: Work, known: number, bound: number, best: number): boolean =>
  isLong(work) && known < bound && bound < best;

/** What moves can cost in all: sums of what the blocks cost. */
class Sums {
  /** Ascending; null where there are too many to list. */
  private readonly all: readonly number[] | null;

  constructor({ homes }: Today, below: number) {
    let sums: Set<number> | null = new Set([0]);
    for (const { cost } of homes.flat()) {
      if (sums === null) break;
      const more: number[] = [...sums].map((each) => each + cost).filter((each) => each < below);
      for (const each of more) sums.add(each);
      if (sums.size > MOST_SUMS) sums = null;
    }
    this.all = sums === null ? null : [...sums].sort((one, two) => one - two);
  }

  /** The least sum from a number on; infinite where there is none. */
  from(least: number): number {
    return this.all === null ? least : (this.all.find((each) => each >= least) ?? Number.POSITIVE_INFINITY);
  }
}

/** The longer a line, the fewer partial plans are worth it in the exact search. */
const STEEPNESS = 4;
const NOTHING: Cost = { people: 0, stations: 0 };
const MOST_SUMS = 10_000;
/** Where moves cost much, only one in some of the sums is asked for. */
const STEPS = 32;
/** Plans near today's are looked for with so many of the partial plans first. */
const FIRST_SHARE = 1 / 20;
/** Prices get so many of them. */
const PRICES_SHARE = 1 / 8;
/** Wider beams get so many of them; on the longest lines, where hardly any comes to an end, so many times the share that is provable. */
const WIDE_SHARE = 1 / 4;
const WIDE_OF_LONG = 2;
const WIDE_ON_FLOORS = 1 / 6;
const FAR = 2;
/** Stretches of the line get so many of them: the longer it is, the more there are. */
const STRETCHES_SHARE = 1 / 4;
/** Beams after stretches get so many of them, on lines beyond so many blocks ever fewer. */
const AGAIN_SHARE = 1 / 3;
const AGAIN_SOON = 150;
/** Beams that leave nothing out get so many of those for proving. */
const WHOLE_SHARE = 3 / 4;
const FEWEST_NODES = 1_000;
/** To lay the search out takes the square of the blocks: fewer partial plans than this are not worth it. */
const FEWEST_SEARCHED = 100;
/** From so many blocks on a partial plan takes longer the longer the line is, and there are to be fewer of them. */
const QUICK = 1_000;
/** Proving gets so many of the partial plans before the best plan is only lowered. */
const PROOF_SHARE = 1 / 2;
/** On long lines the first question gets so many of these, and each later one so many times what the one before took. */
const FIRST_QUESTION = 1 / 4;
const MORE_A_QUESTION = 4;
/** One question of those afterwards gets so many. */
const TRY_SHARE = 1 / 12;
