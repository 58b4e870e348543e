import type { Line } from "../line/line.js";
import { withoutTasks } from "../line/without-tasks.js";
import { fixByTime } from "../solve/fix-stations.js";
import type { Watch } from "../solve/watch-times.js";
import { add, compare, divide, type Ratio, ZERO } from "../time/ratio.js";
import { type BenchJob, handOverOf } from "./bench-job.js";
import { inOrderOfWork } from "./find-blocks.js";

/** A station of a bench, in order of work; at a bench of one, each place builds the whole. */
export interface BenchStation {
  /** Task numbers of the line, in order of work. */
  readonly tasks: readonly number[];
  /** Work on one unit that carries the parts, in microseconds. */
  readonly work: Ratio;
  /** People together at one of its places: those of its task with the most. */
  readonly crew: number;
}

interface SharedOut {
  readonly stations: readonly BenchStation[];
  /** Whether no other way to share the tasks has a shorter longest station. */
  readonly isProved: boolean;
}

interface Search {
  readonly nodes: number;
  readonly checkpoint: Watch;
}

/** The tasks shared out over the stations of the bench, the hand-over at the last of them. */
export async function shareOut(line: Line, job: BenchJob, share: Ratio, search: Search): Promise<SharedOut> {
  const order = inOrderOfWork(line, job.tasks);
  const count = Math.min(job.terms.stations, order.length);
  if (count === 1) return { stations: asStations(line, job, share, [order]), isProved: true };
  const ends = endsOf(line, job);
  const nodes = Math.max(1, Math.floor(search.nodes / ends.length));
  const ways: SharedOut[] = [];
  for (const end of ends) ways.push(await shareOutBefore(line, job, share, count, end, { ...search, nodes }));
  const isProved = ways.every((way) => way.isProved);
  return {
    ...ways.reduce((one, two) => (compare(longestOf(two), longestOf(one)) < 0 ? two : one)),
    isProved,
  };
}

/** Tasks with one of which the work may end where somebody hands it over: those that no other task of the bench waits for. */
function endsOf(line: Line, { tasks, terms }: BenchJob): readonly (number | null)[] {
  if (terms.handOver === 0) return [null];
  return tasks.filter((task) => !tasks.some((later) => line.before[later]!.includes(task)));
}

const longestOf = ({ stations }: SharedOut): Ratio =>
  stations.map(({ work }) => work).reduce((one, two) => (compare(two, one) > 0 ? two : one));

/** @param end the task after all others, with which the parts are handed over; null where that takes no time */
async function shareOutBefore(
  line: Line,
  job: BenchJob,
  share: Ratio,
  count: number,
  end: number | null,
  { nodes, checkpoint }: Search,
): Promise<SharedOut> {
  const others = [...line.tasks.keys()].filter((task) => !job.tasks.includes(task));
  const alone = withoutTasks(line, others);
  const handOver = handOverOf(line, job);
  const endAt = end === null ? -1 : job.tasks.indexOf(end);
  const tasks = alone.tasks.map((task, at) => {
    const load = workOnCarrier(line, job.tasks[at]!, share);
    return { ...task, load: at === endAt ? add(load, handOver) : load };
  });
  const before = alone.before.map((earlier, at) =>
    at === endAt ? [...tasks.keys()].filter((each) => each !== at) : earlier,
  );
  const fixed = await fixByTime({ ...alone, tasks, before }, count, nodes, checkpoint);
  const groups = fixed.plan.stations
    .filter((station) => station.tasks.length > 0)
    .map((station) => station.tasks.map((at) => job.tasks[at]!));
  return { stations: asStations(line, job, share, groups), isProved: fixed.proved };
}

function asStations(
  line: Line,
  job: BenchJob,
  share: Ratio,
  groups: readonly (readonly number[])[],
): BenchStation[] {
  const handOver = handOverOf(line, job);
  return groups.map((tasks, at) => {
    return {
      tasks,
      work: tasks
        .map((task) => workOnCarrier(line, task, share))
        .reduce(add, at === groups.length - 1 ? handOver : ZERO),
      crew: Math.max(...tasks.map((task) => line.tasks[task]!.people)),
    };
  });
}

/** Load of a task on one unit that carries the parts, which are this share of those that its mean is of. */
export const workOnCarrier = (line: Line, task: number, share: Ratio): Ratio =>
  divide(line.tasks[task]!.load, share);
