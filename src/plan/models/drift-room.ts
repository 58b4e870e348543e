import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, greatestCommonDivisor, type Ratio, ratio, subtract } from "../../time/ratio.js";
import { workingTime } from "../figures/working-time.js";
import type { Plan, Station } from "../plan.js";
import { postOf } from "../post.js";
import { commonDenominator } from "./common-denominator.js";
import { meanOverModels, modelTimes } from "./model-time.js";

/**
 * How far a worker drifts beyond the end of the station, in microseconds of work; null where the drift grows without end, with
 * what makes it grow: the station's average work, or only this order of units, which brings more than the average to the
 * station or to one of its places.
 */
export type DriftRoom =
  | { readonly room: Ratio; readonly grows: null }
  | { readonly room: null; readonly grows: "average" | "order" };

/** The drift room at each station of a plan when the sequence is built again and again. */
export function driftRoom(line: Line, pace: Pace, plan: Plan, sequence: readonly number[]): DriftRoom[] {
  return plan.stations.map((station) => driftAt(line, pace, station, sequence));
}

function driftAt(line: Line, pace: Pace, station: Station, sequence: readonly number[]): DriftRoom {
  const working = workingTime(postOf(line, pace, station), pace.lineCycle);
  const times = modelTimes(line, station);
  const room = settledDrift(times, working, station.places, sequence);
  if (room !== null) return { room, grows: null };
  return { room: null, grows: compare(meanOverModels(line, times), working) > 0 ? "average" : "order" };
}

/**
 * The largest drift once a repeated sequence has settled; null where it never does. The drift after a unit is
 * max(0, drift before + time of its model - working time). Places take units in turn, and a place has the whole working time of
 * the station for each of its own.
 *
 * @param times the time of each model at the station, in the unit of the working time
 * @param working the working time of the station, all its places counted
 * @throws RangeError for a sequence without units
 */
export function settledDrift(
  times: readonly Ratio[],
  working: Ratio,
  places: number,
  sequence: readonly number[],
): Ratio | null {
  const gains = times.map((own) => subtract(own, working));
  const parts = commonDenominator(gains);
  const room = wholeDrift(
    gains.map(({ num, den }) => num * (parts / den)),
    places,
    sequence,
  );
  return room === null ? null : ratio(room, parts);
}

/** The same in whole numbers, from the time of each model above the working time. */
export function wholeDrift(
  gains: readonly bigint[],
  places: number,
  sequence: readonly number[],
): bigint | null {
  if (sequence.length === 0) throw new RangeError("a sequence needs at least one unit");
  let most = 0n;
  for (const turn of turnsOfPlaces(sequence, places)) {
    const room = largestDrift(turn.map((model) => gains[model]!));
    if (room === null) return null;
    if (room > most) most = room;
  }
  return most;
}

/**
 * The units of each place until its turn repeats. Places whose numbers differ by a common divisor of places and units get the
 * same units, begun elsewhere, which settles to the same drift; one of them stands for all.
 */
function turnsOfPlaces(sequence: readonly number[], places: number): number[][] {
  const units = sequence.length;
  const kinds = Number(greatestCommonDivisor(BigInt(places), BigInt(units)));
  return [...Array(kinds).keys()].map((first) =>
    [...Array(units / kinds).keys()].map((turn) => sequence[(first + turn * places) % units]!),
  );
}

/**
 * Two rounds are enough. The drift after a unit is the largest sum of gains over the units up to it, or 0. Where a round gains
 * nothing in all, a sum over more than one round is no larger than the one without the whole round: the second round begins
 * and ends with the same drift, and so does every later one.
 */
function largestDrift(round: readonly bigint[]): bigint | null {
  if (round.reduce((sum, gain) => sum + gain, 0n) > 0n) return null;
  let [drift, most] = [0n, 0n];
  for (const gain of [...round, ...round]) {
    drift = drift + gain > 0n ? drift + gain : 0n;
    if (drift > most) most = drift;
  }
  return most;
}
