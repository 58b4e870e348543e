import { ANY_COST, type Cost, costOf, isCheaper, PEOPLE_FIRST } from "./cost.js";
import { BeamsAlongPlans } from "./improve/beams-along-plans.js";
import { FirstPlans, type UnfinishedPlan } from "./improve/first-plans.js";
import { mostStates, runSearch, type SearchEnd } from "./search/run-search.js";
import { improvesPlans } from "./search/two-way-search.js";
import { positionsOf } from "./station/arrange-blocks.js";
import { blocksWithoutStation } from "./station/task-rules.js";
import type { Watch } from "./watch-times.js";
import type { BlockPlan, Work } from "./work.js";

/** What the search for the cheapest plan of a work came to. */
export interface Found {
  readonly plan: BlockPlan | null;
  readonly least: Cost;
  readonly ended: SearchEnd;
  readonly nodes: number;
  readonly proofNodes: number;
  readonly nodeLimit: number | null;
  readonly unfinished: UnfinishedPlan | null;
  /** Ruled out with loads rounded up, something cheaper is a plan with loads rounded down: whether true loads keep it is open. */
  readonly isRounded?: boolean;
}

/** Where a search starts. */
export interface Known {
  /** The cheapest plan so far. */
  readonly start: BlockPlan | null;
  /** No plan is cheaper, by bounds alone. */
  readonly root: Cost;
  /** Partial plans that were looked at to know that. */
  readonly used: number;
  /** The position of each block in a plan to start from; null where none is given. */
  readonly from: readonly number[] | null;
  /** Other plans, which tell where a cheaper one may be found. */
  readonly others: readonly BlockPlan[];
}

/** What ends a search for a plan. */
export interface SearchOptions {
  /** Partial plans that the search may look at; null where only the checkpoint ends it. */
  readonly nodes: number | null;
  /** How often the partial plans allowed may double while no plan stands and none is ruled out; never where left out. */
  readonly doublings?: number;
  /** Asked now and then whether to go on. */
  readonly checkpoint: Watch;
}

/**
 * The cheapest plan: a first one where none stands or the search does not improve plans itself, then the search below it. While no plan
 * stands and none is ruled out, both have twice the nodes again. What was ruled out is asked again with loads rounded down.
 *
 * @param low the work with loads rounded down, for what is proved; the same where nothing is rounded
 */
export async function findCheapest(
  work: Work,
  low: Work,
  known: Known,
  options: SearchOptions,
): Promise<Found> {
  let nodes = known.used;
  const { start, root } = known;
  if (start !== null && isCheaper(root, costOf(start), PEOPLE_FIRST)) {
    // To set the search up takes seconds on a long line: nothing of that begins once it is to end.
    const progress = { nodes, best: costOf(start).people, bound: root.people };
    const reason = await options.checkpoint(progress);
    if (reason !== null) return { ...nothingFound(root, options), plan: start, ended: reason, nodes };
  }
  for (let [limit, doublings] = [nodesOf(options), options.doublings ?? 0]; ; limit *= 2, doublings--) {
    const allowed = { ...options, nodes: limit };
    const first = await firstPlan(work, { ...known, used: nodes }, allowed);
    const found = await searchBelow(work, first.plan, known.root, allowed, nodes + first.nodes);
    nodes = found.nodes;
    if (found.plan === null && found.ended === "nodes" && doublings > 0) continue;
    const nodeLimit = options.nodes === null ? null : limit;
    const unfinished = found.plan === null && found.ended !== "proved" ? first.unfinished : null;
    const whole = { ...found, nodeLimit, unfinished };
    return low === work ? whole : proveBelow(low, whole, known.root, options);
  }
}

/** Where no plan exists, as is known without a search. */
export const nothingFound = (root: Cost, { nodes }: Pick<SearchOptions, "nodes">): Found => ({
  plan: null,
  least: root,
  ended: "proved",
  nodes: 0,
  proofNodes: 0,
  nodeLimit: nodes,
  unfinished: null,
});

/** What was ruled out with loads rounded up, with loads rounded down: that holds for the true ones between them. */
async function proveBelow(low: Work, found: Found, root: Cost, options: SearchOptions): Promise<Found> {
  const { plan, nodeLimit } = found;
  if (plan !== null && !isCheaper(root, costOf(plan), PEOPLE_FIRST))
    return { ...found, least: root, ended: "proved" };
  if (found.ended !== "proved") return { ...found, least: root };
  const allowed = { ...options, nodes: nodeLimit };
  const { plan: cheaper, ...below } = await searchBelow(low, plan, root, allowed, found.nodes);
  const isRounded =
    cheaper !== null && (plan === null || isCheaper(costOf(cheaper), costOf(plan), PEOPLE_FIRST));
  // Without a plan of true loads nothing is ruled out.
  return { ...found, ...below, isRounded, ended: plan === null && isRounded ? "first" : below.ended };
}

interface FirstFound {
  readonly plan: BlockPlan | null;
  readonly nodes: number;
  readonly unfinished: UnfinishedPlan | null;
}

/** The plan given, or a cheaper one: found by beams along the plans known, then filled and improved by ejection. */
async function firstPlan(work: Work, known: Known, options: SearchOptions): Promise<FirstFound> {
  const along = await planAlong(work, known, options);
  const { nodes: used } = along;
  const filled = await filledPlan(work, { ...known, start: along.plan, used: known.used + used }, options);
  const before = { ...filled, nodes: used + filled.nodes };
  if (along.plan !== null || filled.plan === null) return before;
  const { plan, nodes } = await planAlong(
    work,
    { ...known, start: filled.plan, used: known.used + before.nodes },
    options,
  );
  return { ...before, plan, nodes: before.nodes + nodes };
}

/** The plan given, or a cheaper one that beams find along it, and along the others known. */
async function planAlong(
  work: Work,
  { start, root, used, from, others }: Known,
  options: SearchOptions,
): Promise<Pick<FirstFound, "plan" | "nodes">> {
  const isDone = start === null || !isCheaper(root, costOf(start), PEOPLE_FIRST);
  if (isDone || !suitsBeams(work)) return { plan: start, nodes: 0 };
  const guides = [start, ...others]
    .toSorted((one, two) => costOf(one).people - costOf(two).people)
    .map((plan) => positionsOf(work, plan));
  const different = new Map(guides.map((each) => [each.join(), each]));
  const beams = new BeamsAlongPlans(
    work,
    start,
    [...(from === null ? [] : [from]), ...different.values()],
    root,
    Math.floor(nodesOf(options) / BEAMS_SHARE),
  );
  for (const _ of beams.stretches()) {
    const best = costOf(beams.best).people;
    if ((await options.checkpoint({ nodes: used + beams.nodes, best, bound: root.people })) !== null) break;
  }
  return { plan: beams.best, nodes: beams.nodes };
}

async function filledPlan(work: Work, known: Known, options: SearchOptions): Promise<FirstFound> {
  const { start, root, used, from } = known;
  const isDone = start !== null && !isCheaper(root, costOf(start), PEOPLE_FIRST);
  const isImprovedLater = start !== null && from === null && improvesPlans(work);
  if (isDone || isImprovedLater || blocksWithoutStation(work).length > 0)
    return { plan: start, nodes: 0, unfinished: null };
  // Where a plan stands already, the search makes more of the partial plans than further improvement does.
  const [share, most] =
    start === null ? [FIRST_SHARE, MOST_FIRST_NODES] : [IMPROVING_SHARE, MOST_IMPROVING_NODES];
  const enough = start === null ? most : Math.min(most, work.size ** 2 * TRIES_A_PAIR);
  const nodes = Math.min(enough, Math.floor(nodesOf(options) / share));
  const asked = (looked: number, best: BlockPlan | null) => {
    const people = best === null ? ("none" as const) : costOf(best).people;
    return options.checkpoint({ nodes: used + looked, best: people, bound: root.people });
  };
  // To stand a plan of a long line up takes seconds; without any plan it is worth them.
  if (start !== null && (await asked(0, start)) !== null) return { plan: start, nodes: 0, unfinished: null };
  const first = new FirstPlans(work, { nodes, least: root }, from);
  for (const _ of first.stretches()) if ((await asked(first.nodes, first.best)) !== null) break;
  const { best } = first;
  const isBetterThanStart =
    best !== null && (start === null || isCheaper(costOf(best), costOf(start), PEOPLE_FIRST));
  return {
    plan: isBetterThanStart ? best : start,
    nodes: first.nodes,
    unfinished: best === null && start === null ? first.unfinished : null,
  };
}

/** Where each step asks for an order of work, or for people who can do it, ejection and the search find as few people sooner. */
const suitsBeams = (work: Work): boolean =>
  !improvesPlans(work) && work.schedule === null && work.skills === null;

/** Beams along known plans get this part of the partial plans. */
const BEAMS_SHARE = 4;
/** First plans get this part of the partial plans, and no more than so many. */
const FIRST_SHARE = 4;
const MOST_FIRST_NODES = 200_000;
const IMPROVING_SHARE = 16;
const MOST_IMPROVING_NODES = 25_000;
/** Small lines are searched before much can be improved. */
const TRIES_A_PAIR = 10;

async function searchBelow(
  work: Work,
  first: BlockPlan | null,
  root: Cost,
  options: SearchOptions,
  used: number,
): Promise<Omit<Found, "nodeLimit" | "unfinished">> {
  const ceiling = first === null ? ANY_COST : costOf(first);
  const start = { ceiling, aim: PEOPLE_FIRST, least: root, plan: first } as const;
  const limits = {
    nodes: Math.max(0, nodesOf(options) - used),
    memory: mostStates(work),
  };
  const answer = await runSearch(work, start, limits, ({ nodes, ceiling: best, bound }) =>
    options.checkpoint({
      nodes: used + nodes,
      best: best.people === ANY_COST.people ? "none" : best.people,
      bound: bound.people,
    }),
  );
  const { plan, bound, ended, nodes } = answer;
  return { plan, least: bound, ended, nodes: used + nodes, proofNodes: nodes };
}

export const nodesOf = ({ nodes }: Pick<SearchOptions, "nodes">): number => nodes ?? Number.MAX_SAFE_INTEGER;
