import type { Micros } from "../time/duration.js";
import { divide, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { MICROS_IN } from "../time/units.js";
import type { BenchRun } from "./bench-line.js";
import type { RunBench } from "./bench-of-run.js";
import type { Run } from "./watched-line.js";
import { sliceEnd } from "./window.js";

/** Units' parts that lay between a bench and its line; mean, least and greatest are null where that was never watched. */
export interface SimulatedStock {
  readonly mean: Ratio | null;
  readonly least: number | null;
  readonly greatest: number | null;
}

/** An hour of the days, or a part of the hours watched, in microseconds. */
export interface StockCourse extends SimulatedStock {
  readonly from: Micros;
  readonly to: Micros;
  /** Whether line and bench work then. */
  readonly isLineAtWork: boolean;
  readonly isBenchAtWork: boolean;
}

/** A bench on the simulated days. */
export interface SimulatedBench extends SimulatedStock {
  readonly id: string;
  /** Number of the station that its parts join at. */
  readonly joins: number;
  /** Of all its stations together. */
  readonly places: number;
  /** Shares of the time that its places work. */
  readonly shares: Readonly<Record<"busy" | "starved" | "blocked", Ratio>>;
  /** Sets of parts in an hour that the bench works. */
  readonly perHour: Ratio;
  /** Units that stood at the line and waited for its parts, on average over the hours watched. */
  readonly waiting: Ratio;
  readonly room: number;
  /** When the first shift of a day starts, in microseconds since midnight; null where no clock times say so. */
  readonly starts: Micros | null;
  /** Whether the course is one of the hours of a day, or of equal parts of the hours watched. */
  readonly isByHour: boolean;
  readonly course: readonly StockCourse[];
}

/** @param hours watched in each run, in microseconds */
export function simulatedBenches(
  runs: readonly Run[],
  benches: readonly RunBench[],
  hours: Micros,
): SimulatedBench[] {
  return benches.map((bench, at): SimulatedBench => {
    const own = runs.map((run) => run.benches![at]!);
    const worked = sumOf(own, ({ watched }) => watched);
    const places = bench.stations.reduce((sum, station) => sum + station.places, 0);
    const whole = worked * BigInt(places);
    const share = (state: keyof BenchRun["times"]) =>
      whole === 0n
        ? ZERO
        : ratio(
            sumOf(own, ({ times }) => times[state]),
            whole,
          );
    const { day } = bench;
    return {
      id: bench.id,
      joins: bench.joins,
      places,
      shares: { busy: share("busy"), starved: share("starved"), blocked: share("blocked") },
      perHour: worked === 0n ? ZERO : ratio(sumOf(own, ({ built }) => built) * BigInt(MICROS_IN.h), worked),
      waiting: divide(ratio(sumOf(own, ({ waited }) => waited)), ratio(BigInt(hours) * BigInt(runs.length))),
      room: bench.room,
      starts: day?.starts ?? null,
      isByHour: day !== null,
      ...stockOf(own, [...own[0]!.stock.keys()]),
      course: own[0]!.stock.flatMap((_, slice): StockCourse[] => {
        const stock = stockOf(own, [slice]);
        if (day === null) {
          const window = { from: 0, to: hours };
          const from = slice === 0 ? 0 : sliceEnd(window, slice - 1);
          return [{ from, to: sliceEnd(window, slice), isLineAtWork: true, isBenchAtWork: true, ...stock }];
        }
        const [from, to] = [slice * MICROS_IN.h, Math.min(day.length, (slice + 1) * MICROS_IN.h)];
        const [isLineAtWork, isBenchAtWork] = [day.line.isWorkedIn(from, to), day.bench.isWorkedIn(from, to)];
        return isLineAtWork || isBenchAtWork ? [{ from, to, isLineAtWork, isBenchAtWork, ...stock }] : [];
      }),
    };
  });
}

const sumOf = <T>(all: readonly T[], of: (each: T) => number): bigint =>
  all.reduce((sum, each) => sum + BigInt(of(each)), 0n);

function stockOf(own: readonly BenchRun[], slices: readonly number[]): SimulatedStock {
  const watched = own.flatMap(({ stock }) => slices.map((at) => stock[at]!)).filter(({ time }) => time > 0);
  if (watched.length === 0) return { mean: null, least: null, greatest: null };
  return {
    mean: divide(
      ratio(sumOf(watched, ({ partTime }) => partTime)),
      ratio(sumOf(watched, ({ time }) => time)),
    ),
    least: Math.min(...watched.map((each) => each.least)),
    greatest: Math.max(...watched.map((each) => each.greatest)),
  };
}
