import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { workingTime } from "../figures/working-time.js";
import type { Plan } from "../plan.js";
import { postOf } from "../post.js";
import { floorStationOf } from "../station-numbers.js";
import { commonDenominator } from "./common-denominator.js";
import type { Uses } from "./goal-chasing.js";
import { meanOverModels, modelTimes, sharesOf } from "./model-time.js";
import { type DriftingStation, type Proposal, proposeSequence } from "./propose-sequence.js";
import { LONGEST_REPEAT, type Repeat, repeatQuantities } from "./repeat-quantities.js";

/** A proposed sequence of models, to be repeated. */
export interface LevelledSequence extends Proposal {
  /** What it keeps near even use: the work at each station. */
  readonly levels: "work of stations";
  /** Units of each model in the shortest repeat. */
  readonly quantities: readonly number[];
  /** The quantities hold the shares exactly. */
  readonly exact: boolean;
  /** Says so where they do not. */
  readonly note: Finding | null;
}

/**
 * A sequence for the smallest whole repeat of the shares in which the stations of a plan drift least and have level work, and where that
 * leaves a choice, the models come evenly; never worse than the sequence of the line file. A line without models has the sequence of one
 * unit.
 *
 * @param longest the most units of the repeat
 */
export function levelledSequence(
  line: Line,
  pace: Pace,
  plan: Plan,
  longest = LONGEST_REPEAT,
): LevelledSequence {
  const repeat = repeatQuantities(sharesOf(line), longest);
  const { quantities, exact } = repeat;
  const proposal = proposeSequence({
    quantities,
    stations: driftingStations(line, pace, plan),
    spacings: line.spacings,
    uses: workUses(line, plan),
    tieUses: countUses(quantities.length),
    isLevelFirst: false,
    given: line.sequence,
  });
  return {
    ...proposal,
    levels: "work of stations",
    quantities,
    exact,
    note: exact ? null : noteGap(line, repeat),
  };
}

/** The sequence in which units enter the line: that of the line file, else the proposed one; one unit of a line that builds one model. */
export function builtSequence(line: Line, pace: Pace, plan: Plan): readonly number[] {
  if (line.models.length === 0) return [0];
  return line.sequence ?? levelledSequence(line, pace, plan).sequence;
}

/** Stations that keep up on average and that some model takes longer than their working time, in one part of a microsecond for all. */
function driftingStations(line: Line, pace: Pace, { stations }: Plan): DriftingStation[] {
  const shares = sharesOf(line);
  const found = stations.flatMap((station) => {
    const working = workingTime(postOf(line, pace, station), pace.lineCycle);
    const times = modelTimes(line, station);
    const isOver = times.some((own, model) => shares[model]!.num > 0n && compare(own, working) > 0);
    if (!isOver || compare(meanOverModels(line, times), working) > 0) return [];
    const room = floorStationOf(line, station.id)?.driftRoom ?? line.driftRoom;
    return [{ gains: times.map((own) => subtract(own, working)), places: station.places, room }];
  });
  const parts = commonDenominator(found.flatMap(({ gains }) => gains));
  return found.map(({ gains, places, room }) => ({
    gains: gains.map(({ num, den }) => num * (parts / den)),
    places,
    room: room === null ? null : BigInt(room) * parts,
  }));
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
