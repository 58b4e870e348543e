import { type Ratio, ratio } from "../../time/ratio.js";
import { commonDenominator } from "./common-denominator.js";

/** What one unit of each model uses of each part, or of the work of each station: one row a model, all of one length. */
export type Uses = readonly (readonly Ratio[])[];

/** One place of the sequence. */
export interface GoalStep {
  /**
   * By model: the square of the distance between the running use and its goal, if this model came next; null where all units of
   * the model are placed. In the square of the unit of the uses.
   */
  readonly squaredDistances: readonly (Ratio | null)[];
  /** The model that takes the place. */
  readonly picked: number;
  /** Running use of each part, this place included. */
  readonly used: readonly Ratio[];
}

export interface GoalChase {
  /** Numbers of models in the order in which their units enter the line. */
  readonly sequence: readonly number[];
  /** What all units together use of each part. */
  readonly totals: readonly Ratio[];
  /** One a place of the sequence. */
  readonly steps: readonly GoalStep[];
}

/**
 * A level sequence of so many units of each model. The goal at place k of n is k/n of every total; each place goes to the model
 * that brings the running use nearest to its goal. Equal distances are told apart by the distances in `tieUses`, then by the
 * order of the models. Exact, and near-sighted: a place once given is never taken back.
 * Source: Y. Monden, Toyota Production System, sequencing by goal chasing.
 *
 * @param quantities units of each model, whole numbers from 0, at least one unit in all
 * @throws RangeError for other quantities, or where a model has no row of uses
 */
export function goalChasing(
  quantities: readonly number[],
  uses: Uses,
  tieUses: Uses = quantities.map(() => []),
): GoalChase {
  refuseUnsound(quantities, uses);
  const [goals, ties] = [openGoals(quantities, uses), openGoals(quantities, tieUses)];
  const left = [...quantities];
  const steps: GoalStep[] = [];
  while (left.some((units) => units > 0)) {
    const place = BigInt(steps.length + 1);
    const squares = left.map((units, model) => (units > 0 ? goals.square(place, model) : null));
    const picked = nearestModel(squares, (model) => ties.square(place, model));
    left[picked]!--;
    for (const each of [goals, ties]) each.take(picked);
    steps.push({
      squaredDistances: squares.map((square) => (square === null ? null : goals.squareOf(square))),
      picked,
      used: goals.used(),
    });
  }
  return { sequence: steps.map(({ picked }) => picked), totals: goals.totals, steps };
}

/** Running use in whole numbers: every use is multiplied by the common denominator, every distance by the units too. */
interface Goals {
  readonly totals: readonly Ratio[];
  /** The scaled square of the distance if this model takes the place. */
  square(place: bigint, model: number): bigint;
  squareOf(square: bigint): Ratio;
  take(model: number): void;
  used(): Ratio[];
}

/** Uses as whole numbers of a part that all have in common. */
export interface WholeUses {
  readonly common: bigint;
  /** One row a model. */
  readonly rows: readonly (readonly bigint[])[];
  /** What all units together use. */
  readonly totals: readonly bigint[];
  /** Of all models together. */
  readonly units: bigint;
}

export function wholeUses(quantities: readonly number[], uses: Uses): WholeUses {
  const common = commonDenominator(uses.flat());
  const rows = uses.map((row) => row.map((use) => use.num * (common / use.den)));
  const totals = [...(rows[0] ?? []).keys()].map((part) =>
    rows.reduce((sum, row, model) => sum + BigInt(quantities[model]!) * row[part]!, 0n),
  );
  const units = BigInt(quantities.reduce((sum, each) => sum + each, 0));
  return { common, rows, totals, units };
}

function openGoals(quantities: readonly number[], uses: Uses): Goals {
  const { common, rows: whole, totals, units } = wholeUses(quantities, uses);
  const parts = [...totals.keys()];
  const used = parts.map(() => 0n);
  return {
    totals: totals.map((total) => ratio(total, common)),
    square: (place, model) =>
      parts.reduce((sum, part) => {
        const gap = place * totals[part]! - units * (used[part]! + whole[model]![part]!);
        return sum + gap * gap;
      }, 0n),
    squareOf: (square) => ratio(square, (units * common) ** 2n),
    take: (model) => {
      for (const part of parts) used[part]! += whole[model]![part]!;
    },
    used: () => used.map((each) => ratio(each, common)),
  };
}

/** The model at the least distance; of equal ones that of the least second distance, then the first. */
function nearestModel(squares: readonly (bigint | null)[], second: (model: number) => bigint): number {
  const open = squares.flatMap((square, model) => (square === null ? [] : [{ model, square }]));
  const least = open.reduce((one, two) => (two.square < one.square ? two : one)).square;
  const tied = open.flatMap(({ model, square }) =>
    square === least ? [{ model, square: second(model) }] : [],
  );
  return tied.reduce((one, two) => (two.square < one.square ? two : one)).model;
}

function refuseUnsound(quantities: readonly number[], uses: Uses): void {
  if (!quantities.every((units) => Number.isSafeInteger(units) && units >= 0)) {
    throw new RangeError(`quantities are whole numbers from 0, not ${quantities.join(", ")}`);
  }
  if (!quantities.some((units) => units > 0)) throw new RangeError("a sequence needs at least one unit");
  if (uses.length !== quantities.length) {
    throw new RangeError(`${quantities.length} models need as many rows of uses, not ${uses.length}`);
  }
}
