import type { Line } from "../line/line.js";
import { shiftTime, timeForGoodUnits } from "../plan/figures/output.js";
import type { Plan } from "../plan/plan.js";
import { studentQuantile } from "../study/quantiles.js";
import { add, compare, divide, multiply, ONE, type Ratio, ratio, toNumber, ZERO } from "../time/ratio.js";
import { MICROS_IN } from "../time/units.js";
import { streamsOf } from "./draw-times.js";
import { layOutRun, modelsInTurn } from "./lay-out-run.js";
import { runPaced } from "./run-paced.js";
import { runUnpaced } from "./run-unpaced.js";
import type { Interval, SimulatedStation, SimulationAnswer, SimulationLength } from "./simulation-answer.js";
import { isRandom, longestWork } from "./station-work.js";
import type { Run, STATES, Window } from "./watched-line.js";
import { whatIsLeftOut } from "./what-is-left-out.js";

/** Units of the slowest station in the hours that are watched, and in the warm-up, where the user does not say how long these are. */
const WATCHED_UNITS = 1000;
const WARM_UP_UNITS = 100;
const REPLICATIONS = 20;

/** What the user did not say: whole hours in which the slowest station works 1,000 units, and 100 more before; 20 replications, or 1 where nothing varies. */
export function lengthOf(line: Line, plan: Plan, asked: Partial<SimulationLength>): SimulationLength {
  const slowest = toNumber(longestWork(line, plan));
  const wholeHours = (units: number) => Math.max(1, Math.ceil((units * slowest) / MICROS_IN.h)) * MICROS_IN.h;
  return {
    seed: asked.seed ?? 1,
    replications: asked.replications ?? (isRandom(line, plan) ? REPLICATIONS : 1),
    hours: asked.hours ?? wholeHours(WATCHED_UNITS),
    warmUp: asked.warmUp ?? wholeHours(WARM_UP_UNITS),
  };
}

export interface SimulationOptions extends SimulationLength {
  readonly confidence: Ratio;
  /** In microseconds; null where nothing gives the pace. */
  readonly lineCycle: number | null;
  /** Asked before each replication but the first: false ends the work. */
  goesOn(replication: number): Promise<boolean>;
}

/** Runs a plan again and again with other random numbers; `faultsOfRun` finds nothing of it. */
export async function simulateLine(
  line: Line,
  plan: Plan,
  { goesOn, ...options }: SimulationOptions,
): Promise<SimulationAnswer> {
  const sequence = modelsInTurn(line, plan);
  const runs: Run[] = [];
  for (const run of replicationsOf(line, plan, sequence?.models ?? [0], options)) {
    runs.push(run);
    if (runs.length < options.replications && !(await goesOn(runs.length + 1))) break;
  }
  const { hours, confidence } = options;
  const counts = meanOf(
    runs.map(({ left }) => left),
    confidence,
  );
  const varies = isRandom(line, plan);
  const inTime = (time: Ratio) =>
    scaled(varies ? counts : { ...counts, halfWidth: ZERO }, divide(time, ratio(hours)));
  const leftOut = whatIsLeftOut(line, plan);
  const available = shiftTime(line);
  const watched = ratio(BigInt(hours) * BigInt(runs.length));
  const stations = plan.stations.map((station, at) =>
    stationOf(runs, at, station, watched, options.lineCycle),
  );
  const left = sumOf(runs, (run) => run.left);
  return {
    line,
    plan,
    ...options,
    replications: runs.length,
    replicationsAsked: options.replications,
    isRandom: varies,
    perHour: inTime(timeForGoodUnits({ ...line, uptime: ONE }, ratio(MICROS_IN.h))),
    perShift: available === null ? null : inTime(timeForGoodUnits(line, ratio(available))),
    stations,
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
    bottleneck: stations.reduce((one, two) => (compare(takenOf(two), takenOf(one)) > 0 ? two : one)).id,
    sequence,
    leftOut,
    findings: leftOut,
  };
}

/** Each replication in turn, with random numbers of its own for the work and the breakdowns of each station. */
export function* replicationsOf(
  line: Line,
  plan: Plan,
  sequence: readonly number[],
  { seed, replications, hours, warmUp, lineCycle }: SimulationLength & { readonly lineCycle: number | null },
): Generator<Run> {
  const streams = streamsOf(seed);
  const next = () => streams.next().value;
  const run = layOutRun(line, plan, sequence, lineCycle);
  const window: Window = { from: warmUp, to: warmUp + hours };
  const runLine = line.flow.pacing === "unpaced" ? runUnpaced : runPaced;
  for (let count = 0; count < replications; count++)
    yield runLine(
      run,
      run.stations.map(() => ({ work: next(), breakdowns: next() })),
      window,
    );
}

const takenOf = ({ shares }: SimulatedStation): Ratio => add(shares.busy, shares.down);

const sumOf = (runs: readonly Run[], of: (run: Run) => number): Ratio =>
  ratio(runs.reduce((sum, run) => sum + BigInt(of(run)), 0n));

function stationOf(
  runs: readonly Run[],
  at: number,
  { id, places }: Plan["stations"][number],
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
      starved: share("starved"),
      blocked: share("blocked"),
      down: share("down"),
    },
    overrun: lineCycle === null || units.num === 0n ? null : divide(overruns, units),
  };
}

/** The mean of counts with its confidence interval by Student's t: mean +- t s / root n. */
export function meanOf(counts: readonly number[], confidence: Ratio): Interval {
  const sum = counts.reduce((all, each) => all + BigInt(each), 0n);
  const squares = counts.reduce((all, each) => all + BigInt(each) * BigInt(each), 0n);
  const count = BigInt(counts.length);
  const mean = ratio(sum, count);
  // Squared deviations, all times the count, are a whole number.
  const scatter = count * squares - sum * sum;
  if (scatter === 0n && counts.length > 1) return { mean, halfWidth: ZERO };
  if (counts.length === 1) return { mean, halfWidth: null };
  const variance = ratio(scatter, count * count * (count - 1n));
  return {
    mean,
    halfWidth: multiply(studentQuantile(confidence, counts.length - 1), squareRoot(variance)),
  };
}

/** To 9 decimals. */
function squareRoot(square: Ratio): Ratio {
  const scale = 10n ** 9n;
  const target = (square.num * scale * scale) / square.den;
  let root = target;
  for (let next = target === 0n ? 0n : (target + 1n) / 2n; next < root; ) {
    root = next;
    next = (root + target / root) / 2n;
  }
  return ratio(root, scale);
}

const scaled = ({ mean, halfWidth }: Interval, by: Ratio): Interval => ({
  mean: multiply(mean, by),
  halfWidth: halfWidth && multiply(halfWidth, by),
});
