import type { Bench, Line } from "../line/line.js";
import type { BenchBeside } from "../plan/bench-beside.js";
import type { BenchOfPlan } from "../plan/check/check-subject.js";
import { cycleOfPlan } from "../plan/figures/cycle.js";
import { peopleAtAll } from "../plan/figures/people.js";
import { stationTime, workingTime } from "../plan/figures/working-time.js";
import { crewOf, ONE_PERSON, type Plan, type Station } from "../plan/plan.js";
import type { Post } from "../plan/post.js";
import { type Pace, paceFromCycle } from "../time/pace.js";
import { add, compare, divide, larger, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { MICROS_IN } from "../time/units.js";
import { hoursOf } from "./bench-hours.js";
import { type BenchJob, carriedShare, handOverOf, isByModel, jobFor } from "./bench-job.js";
import { benchPost } from "./bench-post.js";
import { workOnCarrier } from "./bench-stations.js";
import { stockOf } from "./bench-stock.js";
import { countShares } from "./count-shares.js";
import { ascending, joinsOf } from "./find-blocks.js";
import { withTakeOver } from "./rest-of-line.js";
import { withoutScrapOf } from "./without-scrap.js";

/** What one bench builds, and the entries of a plan that are its stations, in order of work. */
interface BuiltAtBench {
  readonly job: BenchJob;
  readonly entries: readonly Station[];
}

/** The line as the benches of a plan leave it: without what they scrap, and each task where parts join takes them over. Task numbers stay. */
export function lineBeside(line: Line, { benches = [] }: Plan): Line {
  if (benches.length === 0) return line;
  const left = withoutScrapOf(
    line,
    benches.flatMap(({ tasks }) => tasks),
  );
  const jobs = benches.map((bench) => builtAt(line, benches, bench)).filter(isFirst);
  return {
    ...left,
    tasks: withTakeOver(
      left,
      jobs.map(({ job }) => job),
    ),
  };
}

/** Entries of one bench build one thing, told at the first of them. */
const isFirst = ({ entries }: BuiltAtBench, at: number, all: readonly BuiltAtBench[]): boolean =>
  all.findIndex((other) => other.entries[0] === entries[0]) === at;

/** The benches of a plan as posts, each as the line file says that it works, where it states a bench of these tasks. */
export function benchesOfPlan(line: Line, pace: Pace, { benches = [] }: Plan): BenchOfPlan[] {
  return benches.map((bench) => {
    const posts = postsAtBench(line, pace, bench, builtAt(line, benches, bench));
    return {
      bench,
      posts,
      work: posts.map(stationTime).reduce(add, ZERO),
      workingTime: posts.map((post) => workingTime(post, pace.lineCycle)).reduce(add, ZERO),
      people: peopleAtAll(posts),
    };
  });
}

/** People at all benches of a plan at a time, whatever the pace. */
export const whoIsAtBenches = (line: Line, plan: Plan): number =>
  benchesOfPlan(line, paceFromCycle(MICROS_IN.h), plan).reduce((sum, { people }) => sum + people, 0);

/** The benches of a plan, those of several stations as one. */
export function benchesToRun(line: Line, pace: Pace, { benches = [] }: Plan): BenchBeside[] {
  const jobs = benches.map((bench) => builtAt(line, benches, bench)).filter(isFirst);
  return jobs.map(({ job, entries }): BenchBeside => {
    const posts = entries.flatMap((entry) => postsAtBench(line, pace, entry, { job, entries }));
    const share = carriedShare(line, job);
    const hours = hoursOf(line, job.terms.shifts);
    const ofLine = (time: Ratio) => divide(share, time);
    const stock = stockOf(line, job, hours, {
      builds: divide(ofLine(larger(ratio(1), cycleOfPlan(posts))), hours.ofLine),
      takes: ofLine(pace.lineCycle),
      passes: divide(ONE, pace.lineCycle),
    });
    const { shifts, handOver, holds, space } = job.terms;
    const room = Math.max(1, space ?? stock.units ?? 1);
    const building = line.models.flatMap((_, model) =>
      job.tasks.some((task) => line.tasks[task]!.times[model] !== null) ? [model] : [],
    );
    return {
      id: job.id ?? entries[0]!.id,
      stations: posts.map(({ id, tasks, places, crew }) => ({ ...ONE_PERSON, id, tasks, places, crew })),
      equipment: posts.map(({ equipment }) => equipment),
      shifts,
      joinsAt: job.joinsAt,
      share,
      models: isByModel(line, job.tasks) ? building : null,
      handOver,
      holds,
      room,
      isRoomStated: space !== null,
      start: Math.min(room, stock.start),
    };
  });
}

/** What a bench of a plan is part of, as the file states it. */
export const jobOf = (line: Line, benches: readonly Station[], bench: Station): BenchJob =>
  builtAt(line, benches, bench).job;

/** How long a bench of a plan works in a day / how long the line does. */
export const hoursAtBench = (line: Line, benches: readonly Station[], bench: Station): Ratio =>
  hoursOf(line, jobOf(line, benches, bench).terms.shifts).ofLine;

/** Several entries of a plan may be the stations of one bench that the file states: then they hold all of its tasks. */
function builtAt(line: Line, benches: readonly Station[], bench: Station): BuiltAtBench {
  const holdsAny = ({ tasks }: Bench, entry: Station) => entry.tasks.some((task) => tasks.includes(task));
  const stated = line.benches.find((each) => holdsAny(each, bench));
  const entries = stated === undefined ? [] : benches.filter((entry) => holdsAny(stated, entry));
  const whole = ascending(new Set(entries.flatMap(({ tasks }) => tasks)));
  const isWhole = stated !== undefined && whole.join(" ") === ascending(stated.tasks).join(" ");
  const tasks = isWhole ? whole : ascending(new Set(bench.tasks));
  return {
    job: jobFor(line, { tasks, joinsAt: joinsOf(line, tasks) }),
    entries: isWhole ? entries : [bench],
  };
}

function postsAtBench(line: Line, pace: Pace, bench: Station, { job, entries }: BuiltAtBench): Post[] {
  const counted = countShares(line);
  const { shifts, holds, stations: count } = job.terms;
  const handOver = handOverOf(line, job);
  const share = carriedShare(line, job);
  const at = { hours: hoursOf(line, shifts), share, handOver, holds };
  const last = entries.at(-1) === bench ? bench.tasks.at(-1) : null;
  const workOf = (tasks: readonly number[]) =>
    tasks
      .map((task) => workOnCarrier(counted, task, share))
      .reduce(add, tasks.at(-1) === last ? handOver : ZERO);
  const parts = entries.length > 1 ? [bench.tasks] : cutEvenly(bench.tasks, count, workOf);
  return parts.map((tasks, part) => {
    const station = { tasks, work: workOf(tasks), crew: crewOf(line, { ...ONE_PERSON, tasks }) };
    const id = parts.length === 1 ? bench.id : `${bench.id}, station ${part + 1}`;
    return benchPost(counted, pace, at, station, {
      id,
      places: bench.places,
      isLast: tasks.at(-1) === last,
    });
  });
}

/**
 * Tasks in their order cut into so many stretches, the longest as short as can be: who writes a bench of several stations as one
 * entry says only in which order they work.
 */
function cutEvenly(
  tasks: readonly number[],
  count: number,
  workOf: (tasks: readonly number[]) => Ratio,
): (readonly number[])[] {
  const stretches = Math.max(1, Math.min(count, tasks.length));
  interface Cut {
    readonly longest: Ratio;
    readonly parts: (readonly number[])[];
  }
  let best: Cut[] = tasks.map((_, end) => {
    const part = tasks.slice(0, end + 1);
    return { longest: workOf(part), parts: [part] };
  });
  for (let more = 1; more < stretches; more++) {
    const before = best;
    best = tasks.map((_, end) => {
      const ways = before.slice(more - 1, end).map((cut, at): Cut => {
        const part = tasks.slice(more + at, end + 1);
        return { longest: larger(cut.longest, workOf(part)), parts: [...cut.parts, part] };
      });
      return ways.reduce(
        (one, two) => (compare(two.longest, one.longest) < 0 ? two : one),
        ways[0] ?? before[end]!,
      );
    });
  }
  return best.at(-1)?.parts ?? [tasks];
}
