import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { multiply, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import type { Plan } from "../plan.js";
import { type GoalChase, goalChasing, type Uses } from "./goal-chasing.js";
import { modelTimes, sharesOf } from "./model-time.js";
import { LONGEST_REPEAT, type Repeat, repeatQuantities } from "./repeat-quantities.js";

/** A proposed sequence of models, to be repeated, with the steps that led to it. */
export interface LevelledSequence extends GoalChase {
  /**
   * What the totals and the running use count: the work at each station (microseconds at one place, one entry a station), or the
   * units of each model where there is no plan yet.
   */
  readonly levels: "work of stations" | "units of models";
  readonly quantities: readonly number[];
  /** The quantities hold the shares exactly. */
  readonly exact: boolean;
  /** Says so where they do not. */
  readonly note: Finding | null;
}

/**
 * A sequence for the smallest whole repeat of the shares, by goal chasing: the work is level at every station of the plan, and
 * where that leaves a choice, the models are; without a plan only the models are. A line without models has the sequence of one
 * unit.
 *
 * @param longest the most units of the sequence
 */
export function levelledSequence(
  line: Line,
  plan: Plan | null = null,
  longest = LONGEST_REPEAT,
): LevelledSequence {
  const repeat = repeatQuantities(sharesOf(line), longest);
  const { quantities, exact } = repeat;
  const counts = countUses(quantities.length);
  const chase =
    plan === null ? goalChasing(quantities, counts) : goalChasing(quantities, workUses(line, plan), counts);
  return {
    ...chase,
    levels: plan === null ? "units of models" : "work of stations",
    quantities,
    exact,
    note: exact ? null : noteGap(line, repeat),
  };
}

/** The sequence in which units enter the line: that of the line file, else the proposed one; one unit of a line that builds one model. */
export function builtSequence(line: Line, plan: Plan): readonly number[] {
  if (line.models.length === 0) return [0];
  return line.sequence ?? levelledSequence(line, plan).sequence;
}

/** Each model uses one unit of itself. */
function countUses(models: number): Uses {
  const each = [...Array(models).keys()];
  return each.map((model) => each.map((other): Ratio => (other === model ? ONE : ZERO)));
}

/** Each model uses its time at each station, shared among the places there. */
function workUses(line: Line, plan: Plan): Uses {
  const byStation = plan.stations.map((station) =>
    modelTimes(line, station).map((own) => multiply(own, ratio(1, station.places))),
  );
  return sharesOf(line).map((_, model) => byStation.map((times) => times[model]!));
}

function noteGap(line: Line, { quantities, evenAfter }: Repeat): Finding {
  const units = quantities.reduce((sum, each) => sum + each, 0);
  const shown = line.models.map(({ id, share }, model) => {
    const number = quantities[model]!;
    return `${number} ${id} (${percent(ratio(number, units), 2)} for ${percent(share, 2)})`;
  });
  return finding({
    rule: "rounded-mix",
    severity: "note",
    message: `the shares of the models come out even only after ${evenAfter} units; the sequence of ${units} units is the nearest: ${shown.join(", ")}`,
    file: line.file,
  });
}
