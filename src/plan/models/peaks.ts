import type { Severity } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { seldomNumbers, type UnitKind } from "../../line/unit-kinds.js";
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
} from "../../time/ratio.js";
import type { CycleSetBy } from "../figures/cycle.js";
import { standingLimit, workingTime } from "../figures/working-time.js";
import type { Station } from "../plan.js";
import { type Post, postOf } from "../post.js";
import { floorStationOf } from "../station-numbers.js";
import { dwellOfUnit, heldByUnit, isPlain, timeOfUnit } from "../station-schedule.js";

/** Units that a station works on for longer than its working time, or keeps for longer than it can; times in microseconds. */
export interface Peak {
  /** What they take longer of than there is for them on average: people, the room where units stand, or an equipment. */
  readonly by: CycleSetBy;
  /** So many of these take units in turn. */
  readonly turns: number;
  /** The model that such a unit is of, where that is the worst; 0 on a line that builds one. */
  readonly model: number;
  /** Units of every model take as long with this work of every so many units; true on a line that builds one. */
  readonly isOfAnyModel: boolean;
  /** One unit in so many; 1 where it is each unit of the model. */
  readonly every: number;
  /** The work of every so many units that is done on it. */
  readonly tasks: readonly number[];
  readonly time: Ratio;
  /** What there is for a unit: the working time, so often as units may stand at a place, or a line cycle for each unit of an equipment. */
  readonly workingTime: Ratio;
  /** Time - working time. */
  readonly over: Ratio;
  /** How the station gets back to where it was before; null where it does not before the next one comes. */
  readonly catchUp: CatchUp | null;
  /** How far work runs past the end of the station after such a unit at the most; null where that grows without end. */
  readonly drift: Ratio | null;
  /** False where the units meet only after so many that nobody runs through them: catching up and drift are not known. */
  readonly isRun: boolean;
  /** How far work may run past the end of the station; null where the line does not say. */
  readonly driftRoom: Ratio | null;
  /** How much it matters; null for a model that is not rare, where the drift of the sequence tells of it. */
  readonly severity: Severity | null;
}

/** The units of the same place that follow until the time is made up for; at the worst. */
export interface CatchUp {
  readonly units: number;
  /** What each of them leaves of its working time; null where they differ. */
  readonly spare: Ratio | null;
  /** Their model; null where they differ. */
  readonly model: number | null;
}

/** A model of no more than this share of the units is rare. */
const RARE = ratio(1, 10);

/** So many units are run through at the most. */
const LONGEST_RUN = 400_000n;

/**
 * The peaks of a station when a sequence is built again and again. Work of every n-th unit is done on the n-th, the 2n-th, ... unit;
 * the count may begin at any unit of the sequence. Places take units in turn. What failures repeat is told in `timeOfUnit`. Work of
 * several numbers makes a peak for each of them and one for the units on which all of it meets. None where the station has more work
 * than time on average.
 *
 * @param sequence numbers of models; [0] for a line that builds one
 */
export function peaksAt(
  line: Line,
  pace: Pace,
  station: Station,
  sequence: readonly number[],
  post: Post = postOf(line, pace, station),
): Peak[] {
  const found = limitsAt(line, pace, station, post).flatMap((limit) =>
    peaksOf(line, station, limit, sequence),
  );
  // Of units with the same work only that is told which they are most over: who works longer stands longer, too.
  const isWorst = (peak: Peak, at: number) =>
    !found.some((other, turn) => isOfSameUnits(peak, other) && (worstFirst(other, peak) || turn - at) < 0);
  return found.filter(isWorst);
}

/** Of work of every n-th unit the worst model stands for all; else each model has a peak of its own. */
const isOfSameUnits = (one: Peak, two: Peak): boolean =>
  one.tasks.join() === two.tasks.join() && (one.tasks.length > 0 || one.model === two.model);

/** What a unit takes of a station, and what is there for it on average; times in microseconds. */
interface LimitAt {
  readonly by: CycleSetBy;
  /** So many take units in turn: places, what stands at them, or units of an equipment. */
  readonly turns: number;
  /** What each of them has for one of its units. */
  readonly working: Ratio;
  readonly mean: Ratio;
  timeOf(model: number, isDue: UnitKind["isDue"]): Ratio;
}

/**
 * What units keep at a station beside people's hands: where they stand, and equipment; none where the station has more of it to do than there is
 * on average. Gains are what each model keeps it for above what there is for a unit, work of every so many units left out.
 */
export function keptAt(line: Line, pace: Pace, station: Station): { gains: Ratio[]; turns: number }[] {
  return limitsAt(line, pace, station, postOf(line, pace, station))
    .filter(({ by, mean, working }) => by.kind !== "people" && compare(mean, working) <= 0)
    .map(({ timeOf, working, turns }) => ({
      gains: line.models.map((_, model) =>
        subtract(
          timeOf(model, (every) => every === 1),
          working,
        ),
      ),
      turns,
    }));
}

/** People, the room where units stand, and equipment that is counted; the last two only where units keep them longer than people work. */
function limitsAt(line: Line, pace: Pace, station: Station, post: Post): LimitAt[] {
  const working = workingTime(post, pace.lineCycle);
  const people: LimitAt = {
    by: { kind: "people" },
    turns: station.places,
    working,
    mean: post.busy,
    timeOf: (model, isDue) => timeOfUnit(line, station, model, isDue),
  };
  if (isPlain(line, station)) return [people];
  const dwell: LimitAt = {
    by: { kind: "dwell" },
    turns: station.places * post.holds,
    working: standingLimit(post, pace.lineCycle),
    mean: post.dwell,
    timeOf: (model, isDue) => dwellOfUnit(line, station, model, isDue),
  };
  const equipment = post.equipment.map(({ name, held, units }): LimitAt => {
    return {
      by: { kind: "equipment", name },
      turns: units,
      working: multiply(ratio(units), pace.lineCycle),
      mean: held,
      timeOf: (model, isDue) => heldByUnit(line, station, name, { model, isDue }),
    };
  });
  return [people, dwell, ...equipment];
}

function peaksOf(line: Line, station: Station, limit: LimitAt, sequence: readonly number[]): Peak[] {
  const { working, turns, mean } = limit;
  if (compare(mean, working) > 0) return [];
  const units = unitsAt(line, station, limit, sequence);
  const models = [...new Set(sequence)].sort((one, two) => one - two);
  const over = (model: number, due: Due) => compare(units.timeOf(model, due), working) > 0;
  if (!models.some((model) => over(model, units.all))) return [];
  const isRun = BigInt(sequence.length) * units.period * 3n <= LONGEST_RUN;
  const drifts = isRun ? runUnits(units, turns, sequence, working) : null;
  return units.told.flatMap((due) =>
    models
      .filter((model) => over(model, due) && isMore(units, model, due))
      .map((model) => {
        const time = units.timeOf(model, due);
        const isOfAnyModel = models.every((other) => compare(units.timeOf(other, due), time) === 0);
        return { ...peakOf(line, station, limit, units, { model, due }, drifts), isOfAnyModel };
      }),
  );
}

/** The numbers n whose work is due on a unit. */
interface Due {
  readonly numbers: readonly number[];
  /** Their least common multiple: one unit in so many has all of it. */
  readonly every: bigint;
}

const NOTHING_DUE: Due = { numbers: [], every: 1n };

interface UnitsAt {
  /** After so many units the same work is due again. */
  readonly period: bigint;
  readonly all: Due;
  /** What is told: units without such work, those of each n, and those on which all meet. */
  readonly told: readonly Due[];
  dueOn(count: number): Due;
  timeOf(model: number, due: Due): Ratio;
}

function unitsAt(line: Line, station: Station, limit: LimitAt, sequence: readonly number[]): UnitsAt {
  const numbers = seldomNumbers(
    station.tasks.flatMap((task) => (takesTime(line, task) ? line.tasks[task]!.every : [])),
  );
  const known = new Map<string, Due>([["", NOTHING_DUE]]);
  const dueOf = (due: readonly number[]): Due => {
    const key = due.join();
    const found = known.get(key) ?? { numbers: due, every: due.reduce(commonMultiple, 1n) };
    known.set(key, found);
    return found;
  };
  const counted: Due[] = [];
  const period = numbers.reduce(commonMultiple, 1n);
  const dueOn = (count: number): Due => {
    const at = Number(BigInt(count) % period);
    counted[at] ??= dueOf(numbers.filter((every) => at % every === 0));
    return counted[at];
  };
  const times = new Map<Due, (Ratio | undefined)[]>();
  const timeOf = (model: number, due: Due) => {
    const row = times.get(due) ?? sequence.map(() => undefined);
    times.set(due, row);
    row[model] ??= limit.timeOf(model, (every) => every === 1 || due.numbers.includes(every));
    return row[model];
  };
  const all = dueOf(numbers);
  return {
    period: all.every,
    all,
    told: [...new Set([NOTHING_DUE, ...numbers.map(dueOn), all])],
    dueOn,
    timeOf,
  };
}

function takesTime(line: Line, number: number): boolean {
  const { times, walking, machineTime } = line.tasks[number]!;
  return walking + machineTime > 0 || times.some((time) => time !== null && time > 0);
}

const commonMultiple = (common: bigint, next: number): bigint => leastCommonMultiple(common, BigInt(next));

/** Whether the work that is due makes the unit any longer: a model may have none of it. */
const isMore = ({ timeOf }: UnitsAt, model: number, due: Due): boolean =>
  due === NOTHING_DUE || compare(timeOf(model, due), timeOf(model, NOTHING_DUE)) > 0;

/** A unit as it comes to the station. */
interface Unit {
  readonly model: number;
  readonly due: Due;
}

/** What becomes of the drift after units of one kind, in parts of a microsecond. */
interface AfterKind {
  isCaughtUp: boolean;
  catchUp: { readonly units: number; readonly spare: bigint | null; readonly model: number | null } | null;
  /** null: without end. */
  drift: bigint | null;
}

interface Drifts {
  readonly parts: bigint;
  after(unit: Unit): AfterKind | undefined;
  /** The farthest after units on which this and maybe more is due; for all that is ever due, after units with any of it. */
  farthest(unit: Unit): bigint | null;
}

/** A peak that is not made up for yet. */
interface Open {
  readonly unit: Unit;
  readonly before: bigint;
  units: number;
  spare: bigint | null;
  model: number | null;
}

/** Runs every place through its units until they repeat, for every unit of the sequence that the count may begin with. */
function runUnits(units: UnitsAt, places: number, sequence: readonly number[], working: Ratio): Drifts {
  const { gainOf, parts } = wholeGains(units, sequence, working);
  const found = new Map<Due, AfterKind[]>();
  const recordOf = ({ model, due }: Unit): AfterKind => {
    const row = found.get(due) ?? [];
    found.set(due, row);
    row[model] ??= { isCaughtUp: true, catchUp: null, drift: 0n };
    return row[model];
  };
  const [length, period] = [sequence.length, Number(units.period)];
  const offsets = Number(greatestCommonDivisor(BigInt(length), units.period));
  const repeat = (length / offsets) * period;
  const kinds = Number(greatestCommonDivisor(BigInt(repeat), BigInt(places)));
  for (let offset = 0; offset < offsets; offset++)
    for (let place = 0; place < kinds; place++) {
      const turn = Array.from({ length: repeat / kinds }, (_, at): Unit => {
        const count = place + 1 + at * places;
        return { model: sequence[(count - 1 + offset) % length]!, due: units.dueOn(count) };
      });
      runPlace(turn, gainOf, recordOf);
    }
  const farthest = ({ model, due }: Unit): bigint | null => {
    const alike = [...found].flatMap(([other, row]) => {
      if (due === NOTHING_DUE) return other === due ? [row[model]!] : [];
      const isAlike = due === units.all ? other !== NOTHING_DUE : isWithin(due, other);
      return isAlike ? row.flatMap((each) => each ?? []) : [];
    });
    return alike.map(({ drift }) => drift).reduce(farther, 0n);
  };
  return { parts, after: ({ model, due }) => found.get(due)?.[model], farthest };
}

const farther = (one: bigint | null, two: bigint | null): bigint | null =>
  one === null || two === null ? null : one > two ? one : two;

const isWithin = (due: Due, other: Due): boolean =>
  due.numbers.every((every) => other.numbers.includes(every));

/** Time - working time of units, as whole numbers of a part that they have in common. */
function wholeGains(units: UnitsAt, sequence: readonly number[], working: Ratio) {
  const dues = new Set(Array.from({ length: Number(units.period) }, (_, at) => units.dueOn(at + 1)));
  const gains = new Map<Due, Ratio[]>();
  for (const due of dues) {
    const row: Ratio[] = [];
    for (const model of new Set(sequence)) row[model] = subtract(units.timeOf(model, due), working);
    gains.set(due, row);
  }
  const parts = [...gains.values()]
    .flat()
    .reduce((common, each) => leastCommonMultiple(common, each.den), 1n);
  const whole = new Map(
    [...gains].map(([due, row]) => [due, row.map(({ num, den }) => num * (parts / den))] as const),
  );
  return { parts, gainOf: ({ model, due }: Unit): bigint => whole.get(due)![model]! };
}

/** The first round settles the drift, the second is what is told, the third shows what becomes of its last units. */
function runPlace(
  turn: readonly Unit[],
  gainOf: (unit: Unit) => bigint,
  recordOf: (unit: Unit) => AfterKind,
) {
  const gains = turn.map(gainOf);
  const grows = gains.reduce((sum, gain) => sum + gain, 0n) > 0n;
  let drift = 0n;
  let open: Open[] = [];
  for (let at = 0; at < 3 * turn.length; at++) {
    const [unit, gain] = [turn[at % turn.length]!, gains[at % turn.length]!];
    const [before, round] = [drift, Math.floor(at / turn.length)];
    drift = before + gain > 0n ? before + gain : 0n;
    open = open.filter((each) => !isOver(each, unit, gain, drift, recordOf));
    if (gain <= 0n || round !== 1) continue;
    const record = recordOf(unit);
    if (grows) record.isCaughtUp = false;
    record.drift = farther(record.drift, grows ? null : drift);
    open.push({ unit, before, units: 0, spare: null, model: null });
  }
}

/** Whether a peak has come to its end with this unit: made up for, or met by the next of its kind. */
function isOver(
  peak: Open,
  unit: Unit,
  gain: bigint,
  drift: bigint,
  recordOf: (unit: Unit) => AfterKind,
): boolean {
  const record = recordOf(peak.unit);
  if (isNextOf(peak.unit, unit)) {
    record.isCaughtUp = false;
    return true;
  }
  peak.units++;
  peak.spare = peak.units === 1 || peak.spare === -gain ? -gain : null;
  peak.model = peak.units === 1 || peak.model === unit.model ? unit.model : null;
  if (drift > peak.before) return false;
  if (peak.units > (record.catchUp?.units ?? 0))
    record.catchUp = { units: peak.units, spare: peak.spare, model: peak.model };
  return true;
}

/** The next with all of its seldom work; of a model, the next unit of that. */
function isNextOf(peak: Unit, unit: Unit): boolean {
  if (peak.due === NOTHING_DUE) return peak.model === unit.model;
  return isWithin(peak.due, unit.due);
}

function peakOf(
  line: Line,
  station: Station,
  { by, turns, working }: LimitAt,
  { timeOf }: UnitsAt,
  { model, due }: Unit,
  drifts: Drifts | null,
): Omit<Peak, "isOfAnyModel"> {
  const time = timeOf(model, due);
  const allowed = floorStationOf(line, station.id)?.driftRoom ?? line.driftRoom;
  const after = drifts?.after({ model, due }) ?? null;
  const whole = (parts: bigint) => multiply(ratio(parts), ratio(ONE.num, drifts!.parts));
  const { catchUp = null, isCaughtUp = false } = after ?? {};
  const drift = drifts?.farthest({ model, due }) ?? null;
  const peak = {
    by,
    turns,
    model,
    every: Number(due.every),
    tasks: station.tasks.filter((task) => due.numbers.includes(line.tasks[task]!.every)),
    time,
    workingTime: working,
    over: subtract(time, working),
    catchUp:
      catchUp === null || !isCaughtUp
        ? null
        : { ...catchUp, spare: catchUp.spare === null ? null : whole(catchUp.spare) },
    drift: drift === null ? null : whole(drift),
    isRun: drifts !== null,
    driftRoom: allowed === null ? null : ratio(allowed),
  };
  // The drift of a sequence is that of people, and at sides of units that stand as well.
  const isTold = by.kind === "people" || (by.kind === "dwell" && station.sides !== null);
  return { ...peak, severity: severityOf(line, peak, isTold) };
}

/**
 * A note where the station catches up before the next one comes, a warning where it does not; of any model an error where work runs past
 * the end of the station farther than it may.
 *
 * @param isTold whether the drift of the sequence tells of such a peak, where its model is not rare
 */
function severityOf(
  line: Line,
  peak: Omit<Peak, "severity" | "isOfAnyModel">,
  isTold: boolean,
): Severity | null {
  const { model, every, catchUp, drift, isRun, driftRoom } = peak;
  if (driftRoom !== null && isRun && (drift === null || compare(drift, driftRoom) > 0)) return "error";
  if (isTold && every === 1 && compare(line.models[model]?.share ?? ONE, RARE) > 0) return null;
  return catchUp === null ? "warning" : "note";
}

/** One that is never caught up before the one that is, then the longest, then the first model. */
function worstFirst(one: Peak, two: Peak): number {
  const [first, second] = [one, two].map(({ catchUp }) => (catchUp === null ? 0 : 1));
  return first! - second! || compare(two.over, one.over) || one.model - two.model;
}
