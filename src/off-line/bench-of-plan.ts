import type { Line } from "../line/line.js";
import type { BenchLoad } from "../plan/check/bench-load.js";
import type { Plan, Station } from "../plan/plan.js";
import type { Pace } from "../time/pace.js";
import { add, divide, multiply, ratio, subtract, ZERO } from "../time/ratio.js";
import { withTakeOver } from "./balance-rest.js";
import { hoursOf, shiftsOf } from "./bench-hours.js";
import { type BenchJob, carriedShare, jobFor } from "./bench-job.js";
import { countShares } from "./count-shares.js";
import { ascending, joinsOf } from "./find-blocks.js";
import { withoutScrapOf } from "./without-scrap.js";

/** The line as the benches of a plan leave it: without what they scrap, and each task where parts join takes them over. Task numbers stay. */
export function lineBeside(line: Line, { benches = [] }: Plan): Line {
  if (benches.length === 0) return line;
  const jobs = benches.map((bench) => jobOf(line, bench));
  const left = withoutScrapOf(
    line,
    benches.flatMap(({ tasks }) => tasks),
  );
  return { ...left, tasks: withTakeOver(left, jobs) };
}

/** The benches of a plan against the pace, each as the line file says that it works, where it states a bench of these tasks. */
export function benchLoads(line: Line, pace: Pace, { benches = [] }: Plan): BenchLoad[] {
  return benches.map((bench) => benchLoad(line, pace, bench, jobOf(line, bench)));
}

/** What a bench of a plan builds, as the file states it where it states a bench of these tasks. */
export function jobOf(line: Line, { tasks }: Station): BenchJob {
  const block = ascending(new Set(tasks));
  return jobFor(line, { tasks: block, joinsAt: joinsOf(line, block) });
}

function benchLoad(line: Line, pace: Pace, bench: Station, job: BenchJob): BenchLoad {
  const share = carriedShare(line, job);
  const counted = countShares(line);
  const { ofLine, shifts } = hoursOf(line, job.terms.shifts);
  const positions = multiply(ratio(bench.places * job.terms.stations), ofLine);
  const handling = multiply(ratio(pace.handling), share);
  const handOver = multiply(ratio(job.terms.handOver), share);
  const sumOf = (weight: (task: number) => number) =>
    bench.tasks.map((task) => multiply(counted.tasks[task]!.load, ratio(weight(task)))).reduce(add, ZERO);
  const work = add(
    sumOf(() => 1),
    handOver,
  );
  const people = bench.crew * bench.places * job.terms.stations;
  return {
    bench,
    work,
    personTime: add(
      sumOf((task) => line.tasks[task]!.people),
      handOver,
    ),
    people,
    peopleOfDay: people * (shifts ?? shiftsOf(line)),
    cycle: divide(add(work, handling), positions),
    workingTime: (lineCycle) => subtract(multiply(positions, lineCycle), handling),
  };
}
