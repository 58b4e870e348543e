import type { Bench, Line } from "../line/line.js";
import { orderOfWork, visitsBefore, visitsOfLine } from "../line/visits.js";
import { add, compare, multiply, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { JoinedBlock } from "./every-block.js";
import { joinsOf } from "./find-blocks.js";

/** How a bench works, whatever is built there. */
export type BenchTerms = Omit<Bench, "id" | "tasks" | "place">;

/** What one bench builds. */
export interface BenchJob extends JoinedBlock {
  /** The name of the bench in the file; null where it is none of those. */
  readonly id: string | null;
  readonly terms: BenchTerms;
}

/** What a bench builds that has a name. */
export type StatedJob = BenchJob & { readonly id: string };

/** A bench of which the file says nothing: the hours of the line, whole blocks at each place, every unit. */
export const PLAIN_TERMS: BenchTerms = {
  shifts: null,
  stations: 1,
  share: ONE,
  pieces: null,
  holds: 1,
  handOver: 0,
  takeOver: 0,
  space: null,
  stop: 0,
  bunch: 1,
};

/** The bench of the file that builds exactly these tasks, else a plain one. */
export function jobFor(line: Line, { tasks, joinsAt }: JoinedBlock): BenchJob {
  const stated = line.benches.find((bench) => bench.tasks.join(" ") === tasks.join(" "));
  return { id: stated?.id ?? null, tasks, joinsAt, terms: stated ?? PLAIN_TERMS };
}

/** Benches as they are stated, those of the file unless others are given. */
export function statedJobs(line: Line, benches: readonly Bench[] = line.benches): StatedJob[] {
  return benches.map((bench) => ({
    id: bench.id,
    tasks: bench.tasks,
    joinsAt: joinsOf(line, bench.tasks),
    terms: bench,
  }));
}

/** Share of the units that carry what the bench builds: that of the models with any of its tasks, or else the one stated. */
export function carriedShare(line: Line, job: BenchJob): Ratio {
  return isByModel(line, job.tasks) ? shareOfModels(line, job.tasks) : job.terms.share;
}

/**
 * Time to hand over the parts of one unit that carries them, for each good one of these, in microseconds: as often as parts leave the bench,
 * those among them that are built for units which the line scraps later.
 */
export function handOverOf(line: Line, { tasks, terms }: Pick<BenchJob, "tasks" | "terms">): Ratio {
  if (terms.handOver === 0) return ZERO;
  const inside = new Set(tasks);
  const tests = line.tasks.map(({ test }) => test);
  // Whatever is done again at the bench is done before its last task is left.
  const last = orderOfWork(line.before, tests).findLast((task) => inside.has(task))!;
  return multiply(ratio(terms.handOver), visitsOfLine(line).leaving[last]!);
}

/**
 * How often parts are taken over at a task where they join, for one good unit of each model in the order of `Task.times`: as often as parts
 * come from the bench and a unit for them is there. Who does the task again on a unit that a test sends back has its parts already, unless
 * the bench builds them again.
 */
export function takeOversOf(
  line: Line,
  job: Pick<BenchJob, "tasks" | "terms">,
  joinsAt: number,
): readonly Ratio[] {
  const { tasks } = job;
  const often = visitsBefore(
    line,
    joinsAt,
    line.before[joinsAt]!.filter((task) => tasks.includes(task)),
    tasks,
  );
  return isByModel(line, tasks) ? often : often.map((each) => multiply(each, job.terms.share));
}

/** Whether times by model say already that only some units carry the parts. */
export function isByModel(line: Line, tasks: readonly number[]): boolean {
  const share = shareOfModels(line, tasks);
  return compare(share, ZERO) > 0 && compare(share, ONE) < 0;
}

function shareOfModels(line: Line, tasks: readonly number[]): Ratio {
  if (line.models.length === 0) return ONE;
  const building = line.models.filter((_, model) =>
    tasks.some((task) => line.tasks[task]!.times[model] !== null),
  );
  return building.map(({ share }) => share).reduce(add, ZERO);
}
