import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import type { BenchesBeside } from "./bench-of-run.js";
import { streamsOf } from "./draw-times.js";
import { layOutRun } from "./lay-out-run.js";
import type { OneMore } from "./part-containers.js";
import { runPaced } from "./run-paced.js";
import { runPacedTested } from "./run-paced-tested.js";
import { runUnpaced } from "./run-unpaced.js";
import type { SimulationLength } from "./simulation-answer.js";
import type { Run } from "./watched-line.js";
import { SLICES } from "./window.js";

/** A line to be run again and again; plain data, so that another thread can be asked for some of the replications. */
export interface AskedRuns extends SimulationLength {
  readonly line: Line;
  readonly plan: Plan;
  /** None where left out. */
  readonly benches?: BenchesBeside | null;
  /** Models of the units, again and again. */
  readonly models: readonly number[];
  /** In microseconds; null where nothing gives the pace. */
  readonly lineCycle: number | null;
  /** All work takes so many times as long, handling not; 1 unless said. */
  readonly timesAsLong?: number;
  /** Equal parts of the hours of which the course is kept; ten unless said. */
  readonly slices?: number;
  /** A part with one container more; none unless said. */
  readonly oneMore?: OneMore | null;
  /** Units that leave are counted by shifts of so many microseconds, too. */
  readonly shift?: number;
}

/**
 * Replications from one to before another, each with random numbers of its own for the work, the breakdowns and the tests of each
 * station, which are the same whoever runs it. Lines with as many stations get the same ones from a seed, so that what differs between them is no
 * chance of the draw (common random numbers). Gives null now and then while one is under way.
 */
export function* replicationsOf(
  asked: AskedRuns,
  from = 0,
  to = asked.replications,
): Generator<Run | null, void> {
  const {
    line,
    plan,
    models,
    seed,
    hours,
    warmUp,
    slices = SLICES,
    timesAsLong = 1,
    shift,
    benches = null,
    oneMore = null,
  } = asked;
  const run = layOutRun(line, plan, models, asked.lineCycle, timesAsLong, benches, oneMore);
  const streams = streamsOf(seed);
  const next = () => streams.next().value;
  const together = run.tested === null ? runPaced : runPacedTested;
  const runLine = line.flow.pacing === "unpaced" ? runUnpaced : together;
  const draw = () => ({
    stations: run.stations.map(() => ({
      work: next(),
      breakdowns: next(),
      tests: run.tested === null ? null : next(),
    })),
    benches: run.benches.map(() => next()),
  });
  for (let count = 0; count < from; count++) draw();
  for (let count = from; count < to; count++)
    yield yield* runLine(run, draw(), {
      from: warmUp,
      to: warmUp + hours,
      slices,
      ...(shift === undefined ? {} : { shift }),
    });
}

/** Another thread, or several, that run replications of a line at the same time. */
export interface RunsBeside {
  /** Threads, this one included. */
  readonly atATime: number;
  /** Replications from one to before another; fewer where the work was ended. */
  runs(asked: AskedRuns, from: number, to: number): Promise<readonly Run[]>;
}

/** Parts of the replications for each thread, so that none waits long for another. */
const PARTS_EACH = 8;

/**
 * Every replication of a line in order of its number, whichever thread ran it; fewer where the work was ended, and none where that was in the
 * midst of the first.
 *
 * @param beside null where all is run here
 * @param first number of the first, counted from 0
 * @param goesOn asked in the midst of long replications here with the number of that one, and after each but the last with that of the next; false ends the work
 */
export async function collectRuns(
  asked: AskedRuns,
  beside: RunsBeside | null,
  goesOn: (replication: number) => Promise<boolean>,
  first = 0,
): Promise<Run[]> {
  const { replications } = asked;
  const count = replications - first;
  const length = beside === null ? count : Math.ceil(count / (PARTS_EACH * beside.atATime));
  const parts = Array.from({ length: Math.ceil(count / length) }, (): readonly Run[] => []);
  let [part, done, isEnded] = [0, first, false];
  const eachPart = async (work: (at: number, from: number, to: number) => Promise<void>) => {
    while (part < parts.length && !isEnded) {
      const at = part++;
      const from = first + at * length;
      await work(at, from, Math.min(replications, from + length));
    }
  };
  const here = eachPart(async (at, from, to) => {
    const found: Run[] = [];
    parts[at] = found;
    for (const run of replicationsOf(asked, from, to)) {
      if (run !== null) {
        found.push(run);
        done++;
      }
      if (done < replications && !(await goesOn(done + 1))) {
        isEnded = true;
        return;
      }
    }
  });
  const there = eachPart.bind(null, async (at, from, to) => {
    const found = await beside!.runs(asked, from, to);
    parts[at] = found;
    done += found.length;
  });
  const others = Array.from({ length: beside === null ? 0 : beside.atATime - 1 }, () => there());
  await Promise.all([here, ...others]);
  return parts.flat();
}
