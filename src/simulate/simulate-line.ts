import type { Line } from "../line/line.js";
import { carriersOfPlan } from "../plan/figures/carriers.js";
import { shiftTime, timeForGoodUnits } from "../plan/figures/output.js";
import { modelsInTurn } from "../plan/models/models-in-turn.js";
import type { Plan } from "../plan/plan.js";
import { add, compare, divide, multiply, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { MICROS_IN } from "../time/units.js";
import type { BenchesBeside, RunBench } from "./bench-of-run.js";
import { MANY_VISITS, visitsIn } from "./choose-length.js";
import { type Interval, isShown, meanOf, scaled } from "./intervals.js";
import { goesOnInPauses, layOutRun } from "./lay-out-run.js";
import { isWithin, runUntilNarrow } from "./narrow-interval.js";
import { type AskedRuns, collectRuns, type RunsBeside } from "./run-again-and-again.js";
import { type ShiftOfRun, shiftDemandOf } from "./shift-demand.js";
import { type SimulatedBench, simulatedBenches } from "./simulated-benches.js";
import type {
  CarriersOfRun,
  ChosenLength,
  CourseSlice,
  SimulatedBuffer,
  SimulatedPart,
  SimulatedStation,
  SimulationAnswer,
  SimulationLength,
  Within,
} from "./simulation-answer.js";
import { isRandom } from "./station-work.js";
import type { TestedLine } from "./tested-units.js";
import type { RoomRun, Run, RunLine, STATES } from "./watched-line.js";
import { findWhatHelps } from "./what-helps.js";
import { whatIsLeftOut } from "./what-is-left-out.js";
import { SLICES, sliceEnd } from "./window.js";

export interface SimulationOptions extends SimulationLength {
  readonly confidence: Ratio;
  readonly chosen: ChosenLength;
  /** With it, `replications` are the first ones. */
  readonly within: Within | null;
  /** In microseconds; null where nothing gives the pace. */
  readonly lineCycle: number | null;
  /** None where left out. */
  readonly benches?: BenchesBeside | null;
  /** What is wanted of a shift; left out where it is not asked for. */
  readonly ofShift?: ShiftOfRun | null;
  /** Run the line again and again with what might help. */
  readonly asksWhatHelps?: boolean;
  /** Other threads; none where all is run here. */
  readonly beside?: RunsBeside | null;
  /** Asked before each replication but the first, of the line as it is (0) and of what might help: false ends the work. */
  goesOn(replication: number, rerun: number): Promise<boolean>;
}

/** Runs a plan again and again with other random numbers; `faultsOfRun` finds nothing of it. Null where it was ended in the midst of the first. */
export async function simulateLine(
  line: Line,
  plan: Plan,
  { goesOn, asksWhatHelps = false, beside = null, within, ofShift = null, ...options }: SimulationOptions,
): Promise<SimulationAnswer | null> {
  const varies = isRandom(line, plan);
  const sequence = modelsInTurn(line, plan);
  const models = sequence?.models ?? [0];
  const counted = ofShift === null ? {} : { shift: ofShift.length };
  const ofLine = { ...options, ...counted, line, plan, models };
  const collect = (from: number, to: number) => {
    const part = { ...ofLine, replications: to };
    return collectRuns(part, threadsFor(part, to - from, beside), (each) => goesOn(each, 0), from);
  };
  const { runs, wanted } =
    within === null || !varies
      ? { runs: await collect(0, options.replications), wanted: options.replications }
      : await runUntilNarrow(options.replications, within, options.confidence, collect);
  const asked = { ...ofLine, replications: wanted };
  const helpers = threadsFor(asked, wanted, beside);
  if (runs.length === 0) return null;
  const { hours, confidence } = options;
  const counts = meanOf(
    runs.map(({ left }) => left),
    confidence,
  );
  const inTime = (time: Ratio) =>
    scaled(varies ? counts : { ...counts, halfWidth: ZERO }, divide(time, ratio(hours)));
  const leftOut = whatIsLeftOut(line, plan, options.benches?.benches ?? []);
  const available = shiftTime(line);
  const watched = ratio(BigInt(hours) * BigInt(runs.length));
  const laidOut = layOutRun(line, plan, models, options.lineCycle, 1, options.benches);
  const stands = laidOut.stations.map(({ places }, at) => ({ id: plan.stations[at]!.id, places }));
  const stations = stands.map((station, at) => stationOf(runs, at, station, watched, options.lineCycle));
  const left = sumOf(runs, (run) => run.left);
  const benches = simulatedBenches(runs, laidOut.benches, hours);
  const bottlenecks = keepsPace(line, runs, options.lineCycle)
    ? []
    : bottlenecksOf(runs, stands, hours, laidOut.benches, benches, confidence, varies);
  const parts = partsOf(runs, laidOut, plan, watched);
  const perHour = timeForGoodUnits({ ...line, uptime: ONE }, ratio(MICROS_IN.h));
  const carriers = carriersOf(
    line,
    plan,
    laidOut,
    scaled(counts, ratio(options.lineCycle ?? 0, hours)),
    bottlenecks,
  );
  const whatHelps =
    asksWhatHelps && runs.length === wanted
      ? await findWhatHelps(
          {
            asked,
            beside: helpers,
            bottlenecks,
            parts,
            fullBenches: benches.filter(({ shares }) => shares.blocked.num > 0n).map(({ id }) => id),
            lefts: runs.map((run) => run.left),
            varies,
            perHour,
          },
          confidence,
          goesOn,
        )
      : null;
  return {
    line,
    plan,
    ...options,
    replications: runs.length,
    replicationsAsked: wanted,
    within: within && { ...within, isReached: !varies || isWithin(counts, within.share) },
    isRandom: varies,
    perHour: inTime(perHour),
    wantedPerHour: options.lineCycle === null ? null : divide(perHour, ratio(options.lineCycle)),
    shiftDemand: ofShift && shiftDemandOf(runs, ofShift, confidence, varies),
    perShift: available === null ? null : inTime(timeForGoodUnits(line, ratio(available))),
    stations,
    buffers: buffersOf(runs, laidOut, plan, watched),
    benches,
    parts,
    canWait:
      laidOut.benches.length + laidOut.parts.length > 0 ||
      laidOut.stations.some(
        ({ rigs, waits }) => rigs !== null || (line.flow.pacing !== "unpaced" && waits.length > 0),
      ),
    workInProcess: divide(
      sumOf(runs, (run) => run.unitTime),
      watched,
    ),
    passThrough:
      left.num === 0n
        ? null
        : divide(
            sumOf(runs, (run) => run.passThrough),
            left,
          ),
    bottleneck: bottlenecks.length === 1 ? bottlenecks[0]! : null,
    bottlenecks,
    repair: repairsOf(runs, laidOut.tested, watched, carriers),
    course: courseOf(runs, options, divide(perHour, ratio(MICROS_IN.h))),
    whatHelps,
    goesOnInPauses: goesOnInPauses(line, plan),
    hasWaits: laidOut.stations.some(({ waits }) => waits.length > 0),
    emptyStations: laidOut.stations.reduce((all, { emptyBefore }) => all + emptyBefore, 0),
    sharesPeople: [laidOut, ...laidOut.benches].some(({ stations: all }) =>
      all.some(({ rigs }) => rigs !== null && rigs.holds > 1),
    ),
    sequence,
    leftOut,
    findings: leftOut,
  };
}

/** Other threads where there are many visits and several replications to share. */
const threadsFor = (asked: AskedRuns, count: number, beside: RunsBeside | null): RunsBeside | null =>
  count > 1 && count * visitsIn(asked) >= MANY_VISITS ? beside : null;

/** @param watched microseconds of all runs together */
const buffersOf = (
  runs: readonly Run[],
  laidOut: RunLine,
  { stations }: Plan,
  watched: Ratio,
): SimulatedBuffer[] =>
  laidOut.stations.flatMap(({ buffer: size }, at) => {
    if (size === 0) return [];
    const sum = (of: (room: RoomRun) => number) => sumOf(runs, ({ rooms }) => of(rooms![at]!));
    const came = sum((room) => room.came);
    const ofAll = (all: Ratio) => (came.num === 0n ? null : divide(all, came));
    return [
      {
        after: stations[at - 1]!.id,
        before: stations[at]!.id,
        size,
        mean: divide(
          sum(({ unitTime }) => unitTime),
          watched,
        ),
        most: Math.max(...runs.map(({ rooms }) => rooms![at]!.most)),
        waiting: ofAll(sum(({ units }) => units)),
        wait: ofAll(sum(({ waited }) => waited)),
      },
    ];
  });

/** @param watched microseconds of all runs together */
const partsOf = (
  runs: readonly Run[],
  { parts }: RunLine,
  { stations }: Plan,
  watched: Ratio,
): SimulatedPart[] =>
  parts.map(({ station, id, pack, containers }, at) => ({
    station: stations[station]!.id,
    id,
    pack,
    containers,
    waiting: divide(
      sumOf(runs, ({ partsWaited }) => partsWaited![at]!),
      watched,
    ),
  }));

/** @param made units that left, of those wanted */
function carriersOf(
  line: Line,
  plan: Plan,
  { lineCycle, tested }: RunLine,
  made: Interval,
  bottlenecks: readonly string[],
): CarriersOfRun | null {
  if (tested === null || line.flow.pacing === "unpaced" || lineCycle === null) return null;
  const most = add(made.mean, made.halfWidth ?? ZERO);
  const isShort = bottlenecks.length === 0 && compare(most, ONE) < 0;
  return {
    perGoodUnit: carriersOfPlan(line, plan),
    every: ratio(lineCycle),
    perHour: ratio(MICROS_IN.h, lineCycle),
    everyForDemand: isShort ? multiply(ratio(lineCycle), made.mean) : null,
  };
}

/** @param watched microseconds of all runs together */
function repairsOf(
  runs: readonly Run[],
  tested: TestedLine | null,
  watched: Ratio,
  carriers: CarriersOfRun | null,
): SimulationAnswer["repair"] {
  if (tested === null) return null;
  const perHour = (of: (run: Run) => number) =>
    divide(multiply(sumOf(runs, of), ratio(MICROS_IN.h)), watched);
  return {
    people: tested.repairers,
    busy: divide(
      sumOf(runs, ({ repairTime }) => repairTime),
      multiply(watched, ratio(tested.repairers)),
    ),
    repairsPerHour: perHour(({ repairs }) => repairs),
    scrappedPerHour: perHour(({ scrapped }) => scrapped),
    carriers,
  };
}

/** @param good of the units that leave the line */
function courseOf(
  runs: readonly Run[],
  { hours, lineCycle }: Pick<SimulationOptions, "hours" | "lineCycle">,
  good: Ratio,
): CourseSlice[] {
  let [from, left] = [0, ZERO];
  const mean = (sum: Ratio) => divide(sum, ratio(runs.length));
  return Array.from({ length: SLICES }, (_, at) => {
    const until = sliceEnd({ from: 0, to: hours }, at);
    const length = until - from;
    from = until;
    left = add(
      left,
      sumOf(runs, ({ slices }) => slices[at]!.left),
    );
    const unitTime = mean(sumOf(runs, ({ slices }) => slices[at]!.unitTime));
    return {
      until,
      made: multiply(mean(left), good),
      wanted: lineCycle === null ? null : multiply(ratio(until, lineCycle), good),
      inLine: length === 0 ? ZERO : divide(unitTime, ratio(length)),
    };
  });
}

/** Whether a line that moves together never waits for any station: then its pace limits it. */
const keepsPace = ({ flow }: Line, runs: readonly Run[], lineCycle: number | null): boolean =>
  flow.pacing !== "unpaced" &&
  lineCycle !== null &&
  runs.every(({ stations }) =>
    stations.every(({ overruns, times }) => overruns + times.down + times.waiting === 0),
  );

/** A station with all places where a unit may stand. */
type Stands = Pick<Plan["stations"][number], "id" | "places">;

/**
 * The station, or bench, that is busy or down, or waits for parts or equipment, most, and each other one of which the difference to it, replication by replication, may be
 * none. Where nothing varies, and by one replication, the first of those that are so most.
 */
function bottlenecksOf(
  runs: readonly Run[],
  stations: readonly Stands[],
  hours: number,
  joining: readonly RunBench[],
  benches: readonly SimulatedBench[],
  confidence: Ratio,
  varies: boolean,
): string[] {
  const taken = (run: Run, at: number) => {
    const own = run.stations[at];
    if (own === undefined) return run.benches![at - stations.length]!.times.busy;
    const { busy, down, waiting } = own.times;
    // A wait for a bench that never stops is that of the bench, which is busy meanwhile; else that of its room or its hours.
    const forBenches = joining.map(({ joins }, bench) =>
      joins === at && benches[bench]!.shares.blocked.num === 0n ? run.benches![bench]!.waited : 0,
    );
    return busy + down + Math.max(0, waiting - forBenches.reduce((sum, each) => sum + each, 0));
  };
  const all = [
    ...stations.map(({ id, places }, at) => ({
      id,
      taken: divide(
        sumOf(runs, (run) => taken(run, at)),
        ratio(BigInt(hours) * BigInt(runs.length) * BigInt(places)),
      ),
    })),
    ...benches.map(({ id, shares }) => ({ id, taken: shares.busy })),
  ];
  const most = [...all.keys()].reduce((one, two) =>
    compare(all[two]!.taken, all[one]!.taken) > 0 ? two : one,
  );
  if (!varies || runs.length === 1) return [all[most]!.id];
  // Benches work hours of their own; all else is watched for the same time at each place.
  const placesOf = (at: number) =>
    stations[at]?.places ??
    benches[at - stations.length]!.places * (runs[0]!.benches![at - stations.length]!.watched / hours);
  return all.flatMap(({ id }, at) => {
    const gaps = runs.map((run) => taken(run, most) * placesOf(at) - taken(run, at) * placesOf(most));
    return at === most || !isShown(meanOf(gaps.map(Math.round), confidence)) ? [id] : [];
  });
}

const sumOf = (runs: readonly Run[], of: (run: Run) => number): Ratio =>
  ratio(runs.reduce((sum, run) => sum + BigInt(of(run)), 0n));

function stationOf(
  runs: readonly Run[],
  at: number,
  { id, places }: Stands,
  watched: Ratio,
  lineCycle: number | null,
): SimulatedStation {
  const whole = multiply(watched, ratio(places));
  const share = (state: (typeof STATES)[number]) =>
    divide(
      sumOf(runs, ({ stations }) => stations[at]!.times[state]),
      whole,
    );
  const units = sumOf(runs, ({ stations }) => stations[at]!.units);
  const overruns = sumOf(runs, ({ stations }) => stations[at]!.overruns);
  return {
    id,
    shares: {
      busy: share("busy"),
      waiting: share("waiting"),
      starved: share("starved"),
      blocked: share("blocked"),
      down: share("down"),
    },
    overrun: lineCycle === null || units.num === 0n ? null : divide(overruns, units),
  };
}
