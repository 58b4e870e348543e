import { joinsOf } from "../../benches/find-blocks.js";
import { type BenchFigures, measureBench } from "../../benches/measure-bench.js";
import type { Bench, Line } from "../../line/line.js";
import type { Post } from "../../plan/post.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";

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
  return { id, figures, posts: figures.posts };
}
