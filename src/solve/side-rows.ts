import type { Line } from "../line/line.js";
import { unitKinds } from "../line/unit-kinds.js";
import { larger, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";

/** What the units of one model and one kind take of a station with sides; times in microseconds. */
export interface SideRow {
  readonly model: number;
  /** Their share of the units of the model. */
  readonly ofModel: Ratio;
  /** Time of each task on one of them, done once. */
  readonly times: readonly Ratio[];
}

/** A row for every model and kind of units of a line worked from its sides; a line without models builds one. */
export function sideRows(line: Line): SideRow[] {
  const kinds = unitKinds(line.tasks.map(({ every }) => every));
  return weightsOf(line).flatMap((_, model) =>
    kinds.map((kind) => ({
      model,
      ofModel: kind.share,
      times: line.tasks.map(({ every }, task) => (kind.isDue(every) ? timeOf(line, task, model) : ZERO)),
    })),
  );
}

/**
 * Time of the work done again on a good unit of each model, or on one scrapped for it, by model and task, in microseconds. Work that only a
 * share of the units has is never done again: its rows have it on every unit.
 */
export function timesAgain(line: Line): Ratio[][] {
  return weightsOf(line).map((_, model) =>
    line.tasks.map(({ times, every, visits }, task) => {
      const often = visits[times.length === 1 ? 0 : model]!;
      return multiply(timeOf(line, task, model), larger(ZERO, subtract(often, ratio(1, every))));
    }),
  );
}

/** The share of each model; 1 for one that is not built now, which is held to its own limit all the same. */
export const weightsOf = ({ models }: Line): readonly Ratio[] =>
  models.length === 0 ? [ONE] : models.map(({ share }) => (share.num === 0n ? ONE : share));

function timeOf(line: Line, task: number, model: number): Ratio {
  const { times, walking } = line.tasks[task]!;
  const hands = times[times.length === 1 ? 0 : model]!;
  return hands === null ? ZERO : ratio(hands + walking);
}
