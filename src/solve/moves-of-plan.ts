import type { BlockPlan, Today } from "./work.js";

/**
 * The label of today's plan that each station of a plan keeps, -1 where it is new, so that moves cost the least: by position where each
 * label has one, else ascending along the line (an alignment, Needleman & Wunsch 1970).
 */
export function labelsOf(today: Today, plan: BlockPlan): number[] {
  const { labels, homes, labelAt } = today;
  if (labelAt !== null) return plan.map(({ position }) => labelAt[position] ?? NEW);
  const kept = plan.map(({ blocks }) => {
    const own = new Float64Array(labels);
    for (const block of blocks) for (const { label, cost } of homes[block]!) own[label]! += cost;
    return own;
  });
  const best = Array.from({ length: plan.length + 1 }, () => new Float64Array(labels + 1));
  for (let row = plan.length - 1; row >= 0; row--) {
    for (let label = labels - 1; label >= 0; label--)
      best[row]![label] = Math.max(
        kept[row]![label]! + best[row + 1]![label + 1]!,
        best[row + 1]![label]!,
        best[row]![label + 1]!,
      );
  }
  const found = plan.map(() => NEW);
  for (let [row, label] = [0, 0]; row < plan.length && label < labels; ) {
    const own = kept[row]![label]!;
    if (own > 0 && best[row]![label] === own + best[row + 1]![label + 1]!) found[row++] = label++;
    else if (best[row]![label] === best[row + 1]![label]) row++;
    else label++;
  }
  return found;
}

/** What the moves to a plan cost whose stations keep these labels. */
export function costOfMoves({ homes }: Today, plan: BlockPlan, labels: readonly number[]): number {
  let cost = 0;
  for (const [at, { blocks }] of plan.entries()) {
    for (const block of blocks)
      for (const home of homes[block]!) if (home.label !== labels[at]) cost += home.cost;
  }
  return cost;
}

/** What the moves to a plan cost at the least. */
export const leastMovesTo = (today: Today, plan: BlockPlan): number =>
  costOfMoves(today, plan, labelsOf(today, plan));

const NEW = -1;
