import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import {
  compare,
  greatestCommonDivisor,
  leastCommonMultiple,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { workingTime } from "../figures/working-time.js";
import type { Plan } from "../plan.js";
import { postOf } from "../post.js";
import { floorStationOf } from "../station-numbers.js";
import { commonDenominator } from "./common-denominator.js";
import { goalChasing, type Uses } from "./goal-chasing.js";
import { leastGaps, squaredGaps } from "./least-gaps.js";
import { meanOverModels, modelTimes, sharesOf } from "./model-time.js";
import { keptAt } from "./peaks.js";
import { type DriftingStation, type Proposal, proposeSequence } from "./propose-sequence.js";
import { LONGEST_REPEAT, type Repeat, repeatQuantities } from "./repeat-quantities.js";

/** A proposed sequence of models, to be repeated. */
export interface LevelledSequence extends Proposal {
  /** What it keeps near even use: the work at each station, or parts. */
  readonly levels: "work of stations" | "parts";
  /** How near; null where parts are not asked for. */
  readonly partGaps: PartGaps | null;
  /** Units of each model in the shortest repeat. */
  readonly quantities: readonly number[];
  /** The quantities hold the shares exactly. */
  readonly exact: boolean;
  /** Says so where they do not. */
  readonly note: Finding | null;
}

/** Squared gaps of parts to even use over so many units, in the square of pieces. */
export interface PartGaps {
  /** After which both the proposed and the given sequence begin anew. */
  readonly units: number;
  readonly proposed: Ratio;
  /** Of the sequence of the line file; null where it has none. */
  readonly given: Ratio | null;
  /** By goal chasing with the units of the proposed sequence, again and again. */
  readonly byGoalChasing: Ratio;
  /** The least of any order of these units, again and again; null where the counts are too many. */
  readonly least: Ratio | null;
  /** The proposed sequence has these. */
  readonly isLeast: boolean;
}

/**
 * A sequence for the smallest whole repeat of the shares in which the stations of a plan drift least and have level work, and where that
 * leaves a choice, the models come evenly; where parts are to be used evenly, that comes before the drift that has room. Never worse than
 * the sequence of the line file. A line without models has the sequence of one
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
  const shares = sharesOf(line);
  const stations = driftingStations(line, pace, plan);
  const repeat = repeatQuantities(shares, longest, (each) =>
    stations.every(
      ({ gains }) => gains.reduce((sum, gain, model) => sum + BigInt(each[model]!) * gain, 0n) <= 0n,
    ),
  );
  const isOfParts = line.levelled.length > 0;
  const partUses: Uses = shares.map((_, model) => line.levelled.map(({ byModel }) => byModel[model]!));
  const proposal = proposeSequence({
    quantities: repeat.quantities,
    shares,
    stations,
    kept: keptLong(line, pace, plan),
    spacings: line.spacings,
    uses: isOfParts ? partUses : workUses(line, plan),
    tieUses: countUses(shares.length),
    isLevelFirst: isOfParts,
    given: line.sequence,
  });
  // A given sequence may be longer than any that is proposed, and hold the shares.
  const built = proposal.by === "given" && !repeat.exact ? unitsOf(proposal.sequence, shares) : null;
  const { quantities, exact } = built ?? repeat;
  return {
    ...proposal,
    levels: isOfParts ? "parts" : "work of stations",
    partGaps: isOfParts ? gapsOfParts(proposal.sequence, line.sequence, partUses) : null,
    quantities,
    exact,
    note: exact ? null : noteGap(line, repeat),
  };
}

/** Units of each model in a sequence, reduced, where they hold the shares; else null. */
function unitsOf(sequence: readonly number[], shares: readonly Ratio[]) {
  const built = shares.map((_, model) => sequence.filter((each) => each === model).length);
  const exact = built.every((units, model) => compare(ratio(units, sequence.length), shares[model]!) === 0);
  const rounds = Number(built.reduce((common, units) => greatestCommonDivisor(common, BigInt(units)), 0n));
  return exact ? { quantities: built.map((units) => units / rounds), exact } : null;
}

function gapsOfParts(proposed: readonly number[], given: readonly number[] | null, uses: Uses): PartGaps {
  const quantities = uses.map((_, model) => proposed.filter((each) => each === model).length);
  const counts = countUses(uses.length);
  const order = leastGaps(quantities, uses, counts);
  const units = Number(leastCommonMultiple(BigInt(proposed.length), BigInt(given?.length ?? 1)));
  // Running use and goal meet at the end of each repeat, so that repeats add up.
  const gapsOf = (sequence: readonly number[]) =>
    multiply(squaredGaps(sequence, uses), ratio(units / sequence.length));
  const [own, least] = [gapsOf(proposed), order && gapsOf(order)];
  return {
    units,
    proposed: own,
    given: given && gapsOf(given),
    byGoalChasing: gapsOf(goalChasing(quantities, uses, counts).sequence),
    least,
    isLeast: least !== null && compare(own, least) === 0,
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
  return inWhole(found);
}

/** What some model keeps at a station for longer than there is for a unit. */
function keptLong(line: Line, pace: Pace, { stations }: Plan): DriftingStation[] {
  const shares = sharesOf(line);
  const found = stations.flatMap((station) => {
    const room = floorStationOf(line, station.id)?.driftRoom ?? line.driftRoom;
    return keptAt(line, pace, station)
      .filter(({ gains }) => gains.some((gain, model) => shares[model]!.num > 0n && gain.num > 0n))
      .map(({ gains, turns }) => ({ gains, places: turns, room }));
  });
  return inWhole(found);
}

interface Drifting {
  readonly gains: readonly Ratio[];
  readonly places: number;
  readonly room: number | null;
}

/** In whole numbers of one part of a microsecond. */
function inWhole(found: readonly Drifting[]): DriftingStation[] {
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
