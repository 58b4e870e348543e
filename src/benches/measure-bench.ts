import type { Line } from "../line/line.js";
import { cycleOfDwell, cycleOfHands } from "../plan/figures/cycle.js";
import { shiftTime, unitsStarted } from "../plan/figures/output.js";
import { peopleAtAll } from "../plan/figures/people.js";
import { load } from "../plan/figures/working-time.js";
import type { Post } from "../plan/post.js";
import type { Watch } from "../solve/watch-times.js";
import type { Pace } from "../time/pace.js";
import {
  add,
  ceiling,
  compare,
  divide,
  floor,
  larger,
  multiply,
  type Ratio,
  ratio,
  ZERO,
} from "../time/ratio.js";
import { type BenchHours, hoursOf, meanShift, shiftsOf, shiftsWorked } from "./bench-hours.js";
import { type BenchJob, carriedShare, handOverOf } from "./bench-job.js";
import { type BenchMachine, machinesAt } from "./bench-machines.js";
import { benchPost, placesToKeep, taktOfBench } from "./bench-post.js";
import { type BenchStation, shareOut } from "./bench-stations.js";
import { type BenchStock, stockOf } from "./bench-stock.js";

export type { BenchStation };

/** What one place is planned to build in a shift of the bench, its reserve kept. */
export interface BenchShiftUnits {
  /** Null for a shift beyond those of the line. */
  readonly shift: string | null;
  readonly units: number;
}

/** A bench with all its figures; times in microseconds. None of them depends on what else leaves the line. */
export interface BenchFigures extends BenchJob {
  readonly hours: BenchHours;
  /** Share of the units that carry the parts. */
  readonly share: Ratio;
  readonly pieces: number;
  /** Work on one unit that carries the parts, hand-over included. */
  readonly work: Ratio;
  /** Time for the hand-over among it. */
  readonly handOver: Ratio;
  /** Of one of its pieces. */
  readonly pieceWork: Ratio;
  /** The station that fills its places most. */
  readonly fullest: Post;
  /** Time between two units' parts: line cycle x hours / share. */
  readonly takt: Ratio;
  /** Time between two pieces: takt / pieces. */
  readonly pieceTakt: Ratio;
  readonly stations: readonly BenchStation[];
  /** Whether no other way to share the tasks has a shorter longest station. */
  readonly isProved: boolean;
  /** Places that are filled, exact: (longest station / plan-to + handling) / takt, or (dwell / holds + handling) / takt. */
  readonly placesNeeded: Ratio;
  /** How long parts stand where they stand longest, if that and not hands fills the places; else null. */
  readonly dwell: Ratio | null;
  /** The same rounded up: places of each station, which take units in turn. */
  readonly places: number;
  /** What is loaded by hand and runs by itself, with how many keep up; empty where nothing does. */
  readonly machines: readonly BenchMachine[];
  /** People together at a place, of the station with the most. */
  readonly crew: number;
  /** People at the bench at a time: places x the crews of its stations. */
  readonly people: number;
  /** People of all its shifts; without a calendar those of one. */
  readonly peopleOfDay: number;
  /** Of the station that is loaded most. */
  readonly load: Ratio;
  /** One for each of its stations. */
  readonly posts: readonly Post[];
  /** How long one place works for the need of a day, exact; null without a calendar. */
  readonly dayOfWork: Ratio | null;
  /** Units' parts that one place builds in each shift of the bench, rounded down; null without a calendar, and without work. */
  readonly unitsByShift: readonly BenchShiftUnits[] | null;
  /** The same of any shift; null where shifts differ. */
  readonly unitsPerShift: number | null;
  readonly stock: BenchStock;
}

/** @param line with loads that are means over all units, as `countShares` gives them */
export async function measureBench(
  line: Line,
  pace: Pace,
  job: BenchJob,
  options: { readonly nodes: number; readonly checkpoint: Watch },
): Promise<BenchFigures> {
  const share = carriedShare(line, job);
  const { stations, isProved } = await shareOut(line, job, share, options);
  const hours = hoursOf(line, job.terms.shifts);
  return { ...job, stations, isProved, ...figuresAt(line, pace, job, { share, hours, stations }) };
}

interface BenchSetUp {
  readonly share: Ratio;
  readonly hours: BenchHours;
  readonly stations: readonly BenchStation[];
}

/** The figures of a bench that works so many hours. */
function figuresAt(line: Line, pace: Pace, job: BenchJob, setUp: BenchSetUp) {
  const { share, hours, stations } = setUp;
  const work = stations.map((each) => each.work).reduce(add, ZERO);
  const takt = taktOfBench(pace, setUp);
  const handOver = handOverOf(line, job);
  const postsWith = (count: number) =>
    stations.map((station, at) =>
      benchPost(line, pace, { ...setUp, handOver, holds: job.terms.holds }, station, {
        id: stations.length === 1 ? (job.id ?? "") : `${job.id ?? ""}, station ${at + 1}`,
        places: count,
        isLast: at === stations.length - 1,
      }),
    );
  const alone = postsWith(1);
  const placesNeeded = placesToKeep(alone, pace);
  const standing = alone.map(cycleOfDwell).reduce(larger);
  const isHands = compare(alone.map(cycleOfHands).reduce(larger), standing) >= 0;
  const places = Math.max(1, Number(ceiling(placesNeeded)));
  const posts = postsWith(places);
  const crew = Math.max(...stations.map((each) => each.crew));
  const people = peopleAtAll(posts);
  const pieces = piecesOf(line, job);
  const paced = multiply(placesNeeded, takt);
  const isWork = compare(paced, ZERO) > 0;
  const machines = machinesAt(line, pace, { stations, places, takt, share });
  const cycles = [
    // Work that takes no time is done within the shortest step.
    divide(isWork ? paced : ratio(1), ratio(places)),
    ...posts.flatMap(({ equipment }) => equipment.map(({ held, units }) => divide(held, ratio(units)))),
  ];
  const cycle = cycles.reduce(larger);
  const rates = {
    builds: divide(ratio(1), cycle),
    takes: divide(share, pace.lineCycle),
    passes: divide(ratio(1), pace.lineCycle),
  };
  const shift = meanShift(line);
  const unitsByShift =
    shift && isWork
      ? shiftsWorked(line, hours).map(({ name, available }) => ({
          shift: name,
          units: Number(floor(unitsStarted(line, available, multiply(cycle, ratio(places)))!)),
        }))
      : null;
  const units = (unitsByShift ?? []).map((each) => each.units);
  const isAlike = units.every((each) => each === units[0]);
  const atHoursOfLine = multiply(placesNeeded, hours.ofLine);
  return {
    hours,
    share,
    pieces,
    work,
    handOver,
    pieceWork: divide(work, ratio(pieces)),
    fullest: alone.find((post) => compare(placesToKeep([post], pace), placesNeeded) === 0)!,
    takt,
    pieceTakt: divide(takt, ratio(pieces)),
    placesNeeded,
    dwell: isHands ? null : alone.map((post) => post.dwell).reduce(larger),
    places,
    machines,
    crew,
    people,
    peopleOfDay: people * (hours.shifts ?? 1),
    load: posts.map((post) => load(post, pace.lineCycle)).reduce(larger),
    posts,
    dayOfWork: shift && multiply(multiply(shift, ratio(shiftsOf(line))), atHoursOfLine),
    unitsByShift,
    unitsPerShift: shiftTime(line) !== null && isAlike ? (units[0] ?? null) : null,
    stock: stockOf(line, job, hours, rates),
  };
}

/** The same bench working other shifts; the sharing of its tasks stays. */
export function atShifts(line: Line, pace: Pace, bench: BenchFigures, shifts: number): BenchFigures {
  const hours = hoursOf(line, shifts);
  return { ...bench, ...figuresAt(line, pace, bench, { ...bench, hours }) };
}

/** What all quantities have in common, unless the file states the pieces. */
function piecesOf(line: Line, { tasks, terms }: BenchJob): number {
  if (terms.pieces !== null) return terms.pieces;
  return tasks
    .flatMap((task) => line.tasks[task]!.quantityByModel ?? line.tasks[task]!.quantity)
    .reduce(commonDivisor);
}

const commonDivisor = (one: number, two: number): number => (two === 0 ? one : commonDivisor(two, one % two));
