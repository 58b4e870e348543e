import type { Spacing } from "../../line/line.js";
import { brokenStretches } from "../../line/parts/spacing.js";
import { leastCommonMultiple, type Ratio } from "../../time/ratio.js";
import { wholeDrift } from "./drift-room.js";
import { goalChasing, type Uses, type WholeUses, wholeUses } from "./goal-chasing.js";
import { gapsAt, leastGaps, wholeGaps } from "./least-gaps.js";
import { LONGEST_REPEAT } from "./repeat-quantities.js";

/** A station that some model takes longer than its working time; times are whole numbers of one part of a microsecond. */
export interface DriftingStation {
  /** Time - working time, by model. */
  readonly gains: readonly bigint[];
  readonly places: number;
  /** How far work may run past its end; null where the line does not say. */
  readonly room: bigint | null;
}

/** What a sequence is wanted for. */
export interface SequenceWanted {
  /** Units of each model in the shortest repeat. */
  readonly quantities: readonly number[];
  /** The shares of the models, which the quantities may only come near. */
  readonly shares: readonly Ratio[];
  readonly stations: readonly DriftingStation[];
  /** Where units stand, and equipment, that some model keeps for longer than there is for a unit; none where left out. */
  readonly kept?: readonly DriftingStation[];
  readonly spacings: readonly Spacing[];
  /** What is to be level, and what then, where that leaves a choice. */
  readonly uses: Uses;
  readonly tieUses: Uses;
  /** Level use comes before the room for drift. */
  readonly isLevelFirst: boolean;
  /** The sequence of the line file; null where it has none. */
  readonly given: readonly number[] | null;
}

/** How good a sequence is that is built again and again: the lower the better, the first that differs decides. */
export interface SequenceMeasure {
  readonly units: number;
  /** Stretches of units with more of something than its spacing allows. */
  readonly broken: number;
  /** Stations where drift grows without end. */
  readonly endless: number;
  /** Stations where work runs past the end farther than it may. */
  readonly tooFar: number;
  /** Drift room of all stations together. */
  readonly drift: bigint;
  /** The same of what units keep: where they stand, and equipment. */
  readonly kept: Kept;
  /** 1 where units keep something longer than in the given sequence, else 0. */
  readonly keepsLonger: number;
  /** Squared gaps to level use, scaled by the square of the units. */
  readonly gaps: bigint;
  readonly ties: bigint;
}

interface Kept {
  readonly endless: number;
  readonly tooFar: number;
  readonly drift: bigint;
}

export interface Proposal {
  readonly sequence: readonly number[];
  readonly measure: SequenceMeasure;
  readonly by: "goal-chasing" | "least-gaps" | "search" | "given";
  /** No order of these quantities, or of several times these up to `longest` units, is better. */
  readonly isLeast: boolean;
  readonly longest: number;
  /** No such order keeps the spacings. */
  readonly isImpossible: boolean;
  /** What becomes of the given sequence; null where there is none. */
  readonly given: GivenStands | null;
}

/** The given sequence stands, holds the models in other shares and is not compared, or is worse by the first of what counts. */
export type GivenStands =
  | "stands"
  | "other-shares"
  | "breaks-spacing"
  | "drifts-without-end"
  | "drifts-too-far"
  | "drifts-more"
  | "keeps-longer"
  | "less-level";

/** Partial orders that are looked at, steps of exchanging units in a whole one, and units of one that gives all places the same. */
const [MOST_NODES, MOST_STEPS, MOST_UNITS] = [10_000, 100_000, 2_000];

/**
 * The best order of units that is found. Spacing comes first, then that units keep places and equipment no longer than in the given sequence, then stations that go on drifting, then those beyond their room, then the
 * room for drift at all stations together, then level use. Goal chasing or, where few enough counts make that exact, the least gaps
 * begin; where a station drifts or spacing is asked for, branch and bound over orders goes on, also over several repeats where parallel
 * places take units in turn, and then exchanges of two units. Of equals the given sequence stands.
 */
export function proposeSequence(wanted: SequenceWanted): Proposal {
  const judge = judgeOf(wanted);
  const repeats = repeatsOf(wanted);
  const started = repeats.flatMap((quantities) => firstOrders(wanted, quantities));
  const measured = <From extends Omit<Ordered, "measure">>(order: From): From & Ordered => ({
    ...order,
    measure: judge.measure(order.sequence),
  });
  const better = (one: Ordered, two: Ordered) => (judge.compare(two.measure, one.measure) < 0 ? two : one);
  const first = started.map(measured);
  let best = first.reduce<Ordered>(better, first[0]!);
  const { endless, tooFar, kept } = best.measure;
  if (endless + tooFar + kept.endless + kept.tooFar > 0)
    best = alikeAtPlaces(wanted).map(measured).reduce<Ordered>(better, best);
  const leasts = first.filter(({ by }) => by === "least-gaps");
  let isLeast = best.by === "least-gaps" && leasts.length === repeats.length;
  if (!isSmooth(best.measure)) {
    const budget = { nodes: MOST_NODES };
    isLeast = true;
    for (const quantities of repeats) {
      const searched = searchOrders(wanted, quantities, best.measure, judge, budget);
      if (searched.best !== null) best = { ...searched.best, by: "search" };
      if (!searched.isWhole) isLeast = false;
    }
    if (!isLeast) best = exchangeUnits(wanted, best, judge);
  }
  // What breaks a spacing is not searched further: a whole search without a better order proves that none keeps it.
  const isImpossible = isLeast && best.measure.broken > 0;
  if (isImpossible) isLeast = false;
  const given = wanted.given === null ? null : judge.ofGiven(wanted.given, best.measure);
  const longest = repeats.at(-1)!.reduce((sum, each) => sum + each, 0);
  const searched = { isLeast, longest, isImpossible, given };
  if (given !== "stands") return { ...best, ...searched };
  const measure = judge.measure(wanted.given!);
  return { sequence: wanted.given!, measure, by: "given", ...searched };
}

interface Ordered extends Found {
  readonly by: Proposal["by"];
}

/** Nothing is left to mend but gaps. */
const isSmooth = ({ broken, keepsLonger, endless, tooFar, drift, kept }: SequenceMeasure): boolean =>
  broken + keepsLonger + endless + tooFar === 0 && drift === 0n && compareKept(kept, NOTHING_KEPT) === 0;

const NOTHING_KEPT: Kept = { endless: 0, tooFar: 0, drift: 0n };

const compareKept = (one: Kept, two: Kept): number =>
  one.endless - two.endless || one.tooFar - two.tooFar || sign(one.drift - two.drift);

/** Stations, and behind them what units keep: all of them drift alike. */
const allDrifting = ({ stations, kept = [] }: SequenceWanted): readonly DriftingStation[] => [
  ...stations,
  ...kept,
];

interface Judge {
  measure(sequence: readonly number[]): SequenceMeasure;
  keepsLonger(kept: Kept): number;
  /** Below 0 where the first is better. */
  compare(one: SequenceMeasure, two: SequenceMeasure): number;
  ofGiven(given: readonly number[], best: SequenceMeasure): GivenStands;
}

function judgeOf(wanted: SequenceWanted): Judge {
  const { stations, kept = [], spacings, uses, tieUses, isLevelFirst } = wanted;
  const known = new Map<string, { readonly goal: WholeUses; readonly ties: WholeUses }>();
  const wholeOf = (sequence: readonly number[]) => {
    const counts = uses.map(() => 0);
    for (const model of sequence) counts[model]!++;
    const whole = known.get(counts.join()) ?? {
      goal: wholeUses(counts, uses),
      ties: wholeUses(counts, tieUses),
    };
    known.set(counts.join(), whole);
    return whole;
  };
  const driftOf = (some: readonly DriftingStation[], sequence: readonly number[]): Kept => {
    const drifts = some.map(({ gains, places, room }) => ({
      room,
      drift: wholeDrift(gains, places, sequence),
    }));
    return {
      endless: drifts.filter(({ drift }) => drift === null).length,
      tooFar: drifts.filter(({ drift, room }) => room !== null && (drift === null || drift > room)).length,
      drift: drifts.reduce((sum, { drift }) => sum + (drift ?? 0n), 0n),
    };
  };
  const isComparable = wanted.given !== null && isOfShares(wanted.given, wanted);
  const asGiven = isComparable ? driftOf(kept, wanted.given!) : null;
  const keepsLonger = (own: Kept): number => (asGiven !== null && compareKept(own, asGiven) > 0 ? 1 : 0);
  const measure = (sequence: readonly number[]): SequenceMeasure => {
    const { goal, ties } = wholeOf(sequence);
    const own = driftOf(kept, sequence);
    return {
      units: sequence.length,
      broken: spacings.reduce((sum, each) => sum + brokenStretches(sequence, each).length, 0),
      ...driftOf(stations, sequence),
      kept: own,
      keepsLonger: keepsLonger(own),
      gaps: wholeGaps(sequence, goal),
      ties: wholeGaps(sequence, ties),
    };
  };
  const differences = (one: SequenceMeasure, two: SequenceMeasure): (readonly [GivenStands, number])[] => {
    // Gaps are of n^2 times the unit at n places, so that a unit has gaps / n^3.
    const [ofOne, ofTwo] = [BigInt(one.units) ** 3n, BigInt(two.units) ** 3n];
    const level = ["less-level", sign(one.gaps * ofTwo - two.gaps * ofOne)] as const;
    const drift = ["drifts-more", sign(one.drift - two.drift)] as const;
    const keeps = ["keeps-longer", compareKept(one.kept, two.kept)] as const;
    return [
      ["breaks-spacing", one.broken - two.broken],
      ["keeps-longer", one.keepsLonger - two.keepsLonger],
      ["drifts-without-end", one.endless + one.kept.endless - two.endless - two.kept.endless],
      ["drifts-too-far", one.tooFar + one.kept.tooFar - two.tooFar - two.kept.tooFar],
      ...(isLevelFirst ? [level, drift, keeps] : [drift, keeps, level]),
      ["less-level", sign(one.ties * ofTwo - two.ties * ofOne)],
    ];
  };
  const compare = (one: SequenceMeasure, two: SequenceMeasure) =>
    differences(one, two).find(([, sign]) => sign !== 0)?.[1] ?? 0;
  const ofGiven = (given: readonly number[], best: SequenceMeasure): GivenStands => {
    if (!isOfShares(given, wanted)) return "other-shares";
    const all = differences(measure(given), best);
    const counted = stations.length + kept.length > 0 && !isLevelFirst ? all.slice(0, -2) : all;
    const [why, sign] = counted.find(([, each]) => each !== 0) ?? ["stands", 0];
    return sign > 0 ? why : "stands";
  };
  return { measure, compare, ofGiven, keepsLonger };
}

/** The shortest repeat, and more of them one after another where places take units in turn or several spacings meet. */
function repeatsOf(wanted: SequenceWanted): number[][] {
  const { quantities, spacings } = wanted;
  const units = quantities.reduce((sum, each) => sum + each, 0);
  const most = Math.max(1, ...allDrifting(wanted).map(({ places }) => places), spacings.length > 1 ? 2 : 1);
  return Array.from({ length: most }, (_, at) => at + 1)
    .filter((times) => times === 1 || times * units <= LONGEST_REPEAT)
    .map((times) => quantities.map((each) => each * times));
}

function firstOrders({ uses, tieUses }: SequenceWanted, quantities: readonly number[]) {
  const least = leastGaps(quantities, uses, tieUses);
  const chased = { sequence: goalChasing(quantities, uses, tieUses).sequence, by: "goal-chasing" as const };
  return least === null ? [chased] : [{ sequence: least, by: "least-gaps" as const }, chased];
}

/**
 * Each unit so often in a row that every place gets the order as it is: where the average fits, no drift is without end. None where that is
 * longer than anybody keeps to, or all stations have one place.
 */
function alikeAtPlaces(wanted: SequenceWanted): { sequence: number[]; by: "search" }[] {
  const times = Number(
    allDrifting(wanted).reduce((common, { places }) => leastCommonMultiple(common, BigInt(places)), 1n),
  );
  const units = wanted.quantities.reduce((sum, each) => sum + each, 0);
  if (times === 1 || times * units > MOST_UNITS) return [];
  return firstOrders(wanted, wanted.quantities).map(({ sequence }) => ({
    sequence: sequence.flatMap((model) => Array<number>(times).fill(model)),
    by: "search",
  }));
}

/** Whether a sequence holds the models in their shares, or in the proportions of the quantities. */
function isOfShares(sequence: readonly number[], { quantities, shares }: SequenceWanted): boolean {
  const units = quantities.reduce((sum, each) => sum + each, 0);
  const built = quantities.map((_, model) => sequence.filter((own) => own === model).length);
  return (
    quantities.every((each, model) => built[model]! * units === each * sequence.length) ||
    shares.every(({ num, den }, model) => BigInt(built[model]!) * den === num * BigInt(sequence.length))
  );
}

interface Found {
  readonly sequence: readonly number[];
  readonly measure: SequenceMeasure;
}

/** Branch and bound over orders, unit by unit, those first that goal chasing would take. */
function searchOrders(
  wanted: SequenceWanted,
  quantities: readonly number[],
  atMost: SequenceMeasure,
  judge: Judge,
  budget: { nodes: number },
): { readonly best: Found | null; readonly isWhole: boolean } {
  const { spacings, uses, tieUses } = wanted;
  const stations = allDrifting(wanted);
  const firstKept = wanted.stations.length;
  const [whole, ties] = [wholeUses(quantities, uses), wholeUses(quantities, tieUses)];
  const units = Number(whole.units);
  const left = [...quantities];
  const sequence: number[] = [];
  const used = { goal: whole.totals.map(() => 0n), ties: ties.totals.map(() => 0n) };
  const drifts = stations.map(({ places }) => Array<bigint>(places).fill(0n));
  const farthest = stations.map(() => 0n);
  let best: Found | null = null;
  let isWhole = true;
  const place = (model: number, sign: bigint) => {
    for (const [part, use] of whole.rows[model]!.entries()) used.goal[part]! += sign * use;
    for (const [part, use] of ties.rows[model]!.entries()) used.ties[part]! += sign * use;
    left[model]! -= Number(sign);
  };
  const gapsWith = (model: number, at: number) => {
    place(model, 1n);
    const gaps = [gapsAt(BigInt(at + 1), used.goal, whole), gapsAt(BigInt(at + 1), used.ties, ties)] as const;
    place(model, -1n);
    return { model, goal: gaps[0], ties: gaps[1] };
  };
  /** Work at every station with this unit; gives back how to take it away again. */
  const workOn = (model: number, at: number) => {
    const undo = stations.map(({ places }, station) => {
      const [place, drift, far] = [at % places, drifts[station]![at % places]!, farthest[station]!];
      return () => {
        drifts[station]![place] = drift;
        farthest[station] = far;
      };
    });
    for (const [station, { gains, places }] of stations.entries()) {
      const drift = drifts[station]![at % places]! + gains[model]!;
      drifts[station]![at % places] = drift > 0n ? drift : 0n;
      if (drift > farthest[station]!) farthest[station] = drift;
    }
    return () => {
      for (const each of undo) each();
    };
  };
  const isBeyond = ({ room }: DriftingStation, station: number) => room !== null && farthest[station]! > room;
  const soFar = (from: number, to: number): Kept => ({
    endless: 0,
    tooFar: stations.slice(from, to).filter((each, at) => isBeyond(each, from + at)).length,
    drift: farthest.slice(from, to).reduce((sum, each) => sum + each, 0n),
  });
  /** No order that goes on like this is better. */
  const boundOf = (gaps: bigint, tied: bigint): SequenceMeasure => {
    const kept = soFar(firstKept, stations.length);
    const keepsLonger = judge.keepsLonger(kept);
    return { units, broken: 0, ...soFar(0, firstKept), kept, keepsLonger, gaps, ties: tied };
  };
  const isBetter = (measure: SequenceMeasure) => judge.compare(measure, best?.measure ?? atMost) < 0;
  const nextAt = (at: number) =>
    [...left.keys()]
      .filter((model) => left[model]! > 0 && spacings.every((each) => mayFollow(sequence, model, each)))
      .map((model) => gapsWith(model, at))
      .sort((one, two) => sign(one.goal - two.goal) || sign(one.ties - two.ties) || one.model - two.model);
  const leftOf = ({ models }: Spacing) => models.reduce((sum, model) => sum + left[model]!, 0);
  const walk = (gaps: bigint, tied: bigint): void => {
    const at = sequence.length;
    if (spacings.some((each) => leftOf(each) > mostWithin(units - at, each))) return;
    if (at === units) {
      const found = { sequence: [...sequence], measure: judge.measure(sequence) };
      if (isBetter(found.measure)) best = found;
      return;
    }
    for (const { model, ...more } of nextAt(at)) {
      if (budget.nodes-- <= 0) {
        isWhole = false;
        return;
      }
      const takeAway = workOn(model, at);
      const bound = boundOf(gaps + more.goal, tied + more.ties);
      if (isBetter(bound)) {
        place(model, 1n);
        sequence.push(model);
        walk(bound.gaps, bound.ties);
        sequence.pop();
        place(model, -1n);
      }
      takeAway();
    }
  };
  // Each unit stands in `of` of the rows, one from each unit on, and none of these holds more than `most`.
  const isTooMany = spacings.some((each) => leftOf(each) * each.of > units * each.most);
  if (!isTooMany) walk(0n, 0n);
  return { best, isWhole };
}

/** So many units in a row hold at most so many of a spacing: it may be full from the first unit on. */
const mostWithin = (units: number, { most, of }: Spacing): number =>
  Math.floor(units / of) * most + Math.min(most, units % of);

const sign = (value: bigint): number => (value < 0n ? -1 : value > 0n ? 1 : 0);

/** Whether a unit of the model keeps the spacing with those before it. */
function mayFollow(sequence: readonly number[], model: number, { models, most, of }: Spacing): boolean {
  if (!models.includes(model)) return true;
  let within = 1;
  for (let back = 1; back < of && back <= sequence.length; back++)
    if (models.includes(sequence[sequence.length - back]!)) within++;
  return within <= most;
}

/** Exchanges two units as long as that makes the order better. */
function exchangeUnits<Order extends Found>(wanted: SequenceWanted, start: Order, judge: Judge): Order {
  let best = start;
  const units = start.sequence.length;
  const asked = allDrifting(wanted).length + wanted.spacings.length;
  let tries = Math.floor(MOST_STEPS / (units * (1 + asked)));
  for (let isBetter = true; isBetter; ) {
    isBetter = false;
    for (let one = 0; one < units && tries > 0; one++)
      for (let two = one + 1; two < units && tries > 0; two++) {
        if (best.sequence[one] === best.sequence[two]) continue;
        tries--;
        const sequence = best.sequence.with(one, best.sequence[two]!).with(two, best.sequence[one]!);
        const measure = judge.measure(sequence);
        if (judge.compare(measure, best.measure) >= 0) continue;
        best = { ...best, sequence, measure, by: "search" };
        isBetter = true;
      }
  }
  return best;
}
