import { compareNaturally } from "../../findings/natural-order.js";
import type { Delivery, Line, ListedPart, TaskPart } from "../../line/line.js";
import { add, ceiling, divide, multiply, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";

/** A part with how many of it a good unit uses. */
export interface PartUsed {
  readonly id: string;
  readonly perUnit: Ratio;
}

/**
 * Pieces for one good unit at these tasks = sum over models of share x times performed per good unit x pieces, in natural order of part
 * numbers. What is done again after a repair, and what goes into units that a test scraps later, takes its parts again; work of every
 * n-th unit takes them there only.
 *
 * @param model of all units; null: of the mix
 */
export function partsUsed(line: Line, tasks: readonly number[], model: number | null): PartUsed[] {
  const used = new Map<string, Ratio>();
  for (const task of tasks) {
    const { parts, visits } = line.tasks[task]!;
    for (const part of parts) {
      const pieces = part.byModel
        .map((each, at) => multiply(multiply(shareOf(line, at, model), visits[at]!), ratio(each)))
        .reduce(add, used.get(part.id) ?? ZERO);
      used.set(part.id, pieces);
    }
  }
  return inOrder(used);
}

/** Pieces in the kit of one unit of a model, each task done once; of work of every n-th unit its share. */
export function partsOfKit(line: Line, tasks: readonly number[], model: number): PartUsed[] {
  const used = new Map<string, Ratio>();
  const piecesOf = (part: TaskPart, every: number) => ratio(part.byModel[model]!, every);
  for (const task of tasks) {
    const { parts, every } = line.tasks[task]!;
    for (const part of parts) used.set(part.id, add(used.get(part.id) ?? ZERO, piecesOf(part, every)));
  }
  return inOrder(used);
}

const inOrder = (used: ReadonlyMap<string, Ratio>): PartUsed[] =>
  [...used]
    .filter(([, perUnit]) => perUnit.num > 0n)
    .map(([id, perUnit]) => ({ id, perUnit }))
    .sort((one, two) => compareNaturally(one.id, two.id));

function shareOf({ models }: Pick<Line, "models">, at: number, model: number | null): Ratio {
  if (model !== null) return at === model ? ONE : ZERO;
  return models.length === 0 ? ONE : models[at]!.share;
}

/** An exact number, and the whole number that it is rounded up to. */
export interface RoundedUp {
  readonly exact: Ratio;
  readonly whole: bigint;
}

/** With the whole number that is needed for it. */
export const roundUp = (exact: Ratio): RoundedUp => ({ exact, whole: ceiling(exact) });

/**
 * Containers at the line = demand in the replenishment time x (1 + safety) / pack, rounded up: the number of kanban containers, common
 * practice.
 *
 * @param rate pieces used in a microsecond
 */
export function containersAtLine(
  rate: Ratio,
  { replenish, safety, pack }: { readonly replenish: Ratio; readonly safety: Ratio; readonly pack: number },
): RoundedUp {
  const demand = multiply(multiply(rate, replenish), add(ONE, safety));
  return roundUp(divide(demand, ratio(pack)));
}

/**
 * Full containers at the line in a simulation, one at least; null where neither the replenishment time nor the interval of the handler is known, or the
 * pack. What the file leaves out is taken: two intervals for the time, and no safety.
 *
 * @param rate pieces used in a microsecond that the line runs
 */
export function containersToRun(
  rate: Ratio,
  { pack, replenish, safety }: Pick<ListedPart, "pack" | "replenish" | "safety">,
  { every }: Pick<Delivery, "every">,
): number | null {
  const time = replenish ?? (every === null ? null : 2 * every);
  if (pack === null || time === null) return null;
  const { whole } = containersAtLine(rate, { replenish: ratio(time), safety: safety ?? ZERO, pack });
  return Math.max(1, Number(whole));
}
