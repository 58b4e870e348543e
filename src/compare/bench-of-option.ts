import type { Bench, Line } from "../line/line.js";
import { joinsOf } from "../off-line/find-blocks.js";
import { type BenchFigures, measureBench } from "../off-line/measure-bench.js";
import type { Watch } from "../solve/watch-times.js";
import type { Pace } from "../time/pace.js";
import { add, divide, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { Post } from "./post.js";

/** A bench of an option with its figures, and where its people work: one post for each of its stations. */
export interface OptionBench {
  readonly id: string;
  readonly figures: BenchFigures;
  readonly posts: readonly Post[];
}

/** The bench with as many places as the pace of the line asks for in the shifts that it works. */
export async function benchOfOption(
  line: Line,
  pace: Pace,
  bench: Bench,
  search: { readonly nodes: number; readonly checkpoint: Watch },
): Promise<OptionBench> {
  const { id, tasks } = bench;
  const job = { id, tasks, joinsAt: joinsOf(line, tasks), terms: bench };
  const figures = await measureBench(line, pace, job, search);
  const { stations, places, hours, share } = figures;
  const posts = stations.map((station, at): Post => {
    const ofTasks = personTimeOn(line, share, station.tasks);
    return {
      id: stations.length === 1 ? id : `${id}, station ${at + 1}`,
      kind: "bench",
      tasks: station.tasks,
      places,
      crew: station.crew,
      busy: station.work,
      personTime: at === stations.length - 1 ? add(ofTasks, ratio(bench.handOver)) : ofTasks,
      hours: hours.ofLine,
      shifts: hours.shifts,
      share,
    };
  });
  return { id, figures, posts };
}

/** Person-time of one unit that carries the parts; a load is the mean over all units. */
function personTimeOn(line: Line, share: Ratio, tasks: readonly number[]): Ratio {
  const sum = tasks
    .map((task) => multiply(line.tasks[task]!.load, ratio(line.tasks[task]!.people)))
    .reduce(add, ZERO);
  return divide(sum, share);
}
