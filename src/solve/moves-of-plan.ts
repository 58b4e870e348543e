import type { BlockPlan, Today } from "./work.js";

/**
 * The label of today's plan that each station of a plan keeps, -1 where it is new, so that moves cost the least: by position where each
 * label has one, else ascending along the line (an alignment, Needleman & Wunsch 1970). Where a cost is held beside the first, the least
 * of those that keep to it, if any does.
 */
export function labelsOf(today: Today, plan: BlockPlan): number[] {
  const { labels, homes, labelAt, beside } = today;
  if (labelAt !== null) return plan.map(({ position }) => labelAt[position] ?? NEW);
  const cheapest = alignCheapest(homes, labels, plan);
  if (beside === undefined || costOfMoves(beside, plan, cheapest) <= beside.mostMoves) return cheapest;
  const all = beside.homes.flat().reduce((sum, { cost }) => sum + cost, 0);
  const kept = keptBy(homes, labels, plan);
  const counts = keptBy(beside.homes, labels, plan);
  const worth = (row: number, label: number) => [kept[row]![label]!, counts[row]![label]!] as const;
  return alignWithin(plan.length, labels, worth, all - beside.mostMoves) ?? cheapest;
}

/** By station what keeping each label saves. */
const keptBy = (homes: Today["homes"], labels: number, plan: BlockPlan): Float64Array[] =>
  plan.map(({ blocks }) => addKept(homes, blocks, new Float64Array(labels)));

function addKept(homes: Today["homes"], blocks: readonly number[], own: Float64Array): Float64Array {
  for (const block of blocks) for (const { label, cost } of homes[block]!) own[label]! += cost;
  return own;
}

function alignCheapest(homes: Today["homes"], labels: number, plan: BlockPlan): number[] {
  const best = Array.from({ length: plan.length + 1 }, () => new Float64Array(labels + 1));
  // A station keeps few labels, so one row does for all of them in turn.
  const kept = new Float64Array(labels);
  const begin = (row: number) => addKept(homes, plan[row]!.blocks, kept.fill(0));
  for (let row = plan.length - 1; row >= 0; row--) {
    begin(row);
    const [here, next] = [best[row]!, best[row + 1]!];
    for (let label = labels - 1; label >= 0; label--)
      here[label] = Math.max(kept[label]! + next[label + 1]!, next[label]!, here[label + 1]!);
  }
  const found = plan.map(() => NEW);
  let begun = NEW;
  for (let [row, label] = [0, 0]; row < plan.length && label < labels; ) {
    if (begun !== row) begin(row);
    begun = row;
    const own = kept[label]!;
    if (own > 0 && best[row]![label] === own + best[row + 1]![label + 1]!) found[row++] = label++;
    else if (best[row]![label] === best[row + 1]![label]) row++;
    else label++;
  }
  return found;
}

/** Ways to keep labels of which none is better by both costs. */
interface Kept {
  readonly saved: number;
  /** By the cost beside it. */
  readonly beside: number;
  readonly match: { readonly row: number; readonly label: number; readonly rest: Kept } | null;
}

/**
 * The alignment that saves most of those that save at least so much of the cost beside it; null where none does.
 *
 * @param worth what row and label save by both costs where they are matched
 */
export function alignWithin(
  rows: number,
  labels: number,
  worth: (row: number, label: number) => readonly [saved: number, beside: number],
  leastBeside: number,
): number[] | null {
  let below: Kept[][] = Array.from({ length: labels + 1 }, () => [NOTHING_KEPT]);
  for (let row = rows - 1; row >= 0; row--) {
    const now: Kept[][] = [];
    now[labels] = [NOTHING_KEPT];
    for (let label = labels - 1; label >= 0; label--) {
      const [saved, beside] = worth(row, label);
      const matched = below[label + 1]!.map((rest) => ({
        saved: saved + rest.saved,
        beside: beside + rest.beside,
        match: { row, label, rest },
      }));
      const ways = saved > 0 || beside > 0 ? matched : [];
      now[label] = bestOfBoth([...ways, ...now[label + 1]!, ...below[label]!]);
    }
    below = now;
  }
  const found = below[0]!.find(({ beside }) => beside >= leastBeside);
  if (found === undefined) return null;
  const aligned = Array.from({ length: rows }, () => NEW);
  for (let { match } = found; match !== null; match = match.rest.match) aligned[match.row] = match.label;
  return aligned;
}

/** Those that save most first. */
function bestOfBoth(ways: readonly Kept[]): Kept[] {
  const best: Kept[] = [];
  for (const way of ways.toSorted((one, two) => two.saved - one.saved || two.beside - one.beside))
    if (best.length === 0 || way.beside > best.at(-1)!.beside) best.push(way);
  return best;
}

const NOTHING_KEPT: Kept = { saved: 0, beside: 0, match: null };

/** What the moves to a plan cost whose stations keep these labels. */
export function costOfMoves(
  { homes }: Pick<Today, "homes">,
  plan: BlockPlan,
  labels: readonly number[],
): number {
  let cost = 0;
  for (const [at, { blocks }] of plan.entries()) {
    for (const block of blocks)
      for (const home of homes[block]!) if (home.label !== labels[at]) cost += home.cost;
  }
  return cost;
}

/** What the moves to a plan cost at the least; infinite where they cost too much by the cost that is held beside it. */
export function leastMovesTo(today: Today, plan: BlockPlan): number {
  const labels = labelsOf(today, plan);
  const { beside } = today;
  if (beside !== undefined && costOfMoves(beside, plan, labels) > beside.mostMoves)
    return Number.POSITIVE_INFINITY;
  return costOfMoves(today, plan, labels);
}

const NEW = -1;
