import { ONE } from "../time/ratio.js";
import { LearningCurve } from "./learning-curve.js";
import type { Learning, Line, Task } from "./line.js";
import { loadOf } from "./task-load.js";

/**
 * A line while its people learn. What hands do at a task takes the time of its curve; walking, machines, waits and repairs take what they
 * always take.
 */
export class LearnedLine {
  private readonly curves: readonly (LearningCurve | null)[];
  /** The unit of the batch from which no time falls any more; null where that lies beyond the last unit that is counted. */
  readonly settlesAt: number | null;

  constructor(private readonly line: Line) {
    const known = new Map<string, LearningCurve>();
    this.curves = line.tasks.map(({ learning }) => {
      if (learning === null) return null;
      const key = learningKey(learning);
      const curve = known.get(key) ?? new LearningCurve(learning);
      known.set(key, curve);
      return curve;
    });
    const ends = line.tasks.map(({ learning }, task) => {
      const end = this.curves[task]?.settlesAt();
      return end === undefined || end === null ? end : Math.max(1, end - learning!.built);
    });
    this.settlesAt = ends.includes(null) ? null : Math.max(1, ...ends.map((end) => end ?? 1));
  }

  /** The line as it is at the n-th unit of a batch, with what was built before. */
  at(unit: number): Line {
    const { line } = this;
    const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
    const tasks = line.tasks.map((task, at): Task => {
      const [curve, { learning }] = [this.curves[at]!, task];
      if (curve === null || learning === null) return task;
      const times = task.times.map((time) => time && curve.timeOf(time, learning.built + unit));
      return { ...task, times, load: loadOf({ ...task, times }, shares) };
    });
    return { ...line, tasks };
  }
}

/** The same text for what is learned in the same way. */
export const learningKey = ({ share, by, timeAt, least, built }: Learning): string =>
  [share.num, share.den, by, timeAt, least.num, least.den, built].join(" ");
