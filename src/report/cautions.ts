import type { Comparison } from "../answer/compare/compare-options.js";
import type { Task } from "../line/line.js";

const GENERAL =
  "A balanced time is not a safety assessment. Lifts, electrical, brake and pressure tests, pace and repetition follow local codes and the judgement of qualified people.";

/** The cautions that tasks carry, a text for each, and at last what a balance does not say. */
export const cautionsOf = (tasks: readonly Task[]): string[] => [...ofTasks(tasks), GENERAL];

/** Those of the tasks of every file that is compared; what two files say alike is said once. */
export function cautionsOfOptions(options: Comparison["options"]): string[] {
  const lines = new Map(options.map(({ asked }) => [asked.line.file, asked.line]));
  return [...new Set([...lines.values()].flatMap(({ tasks }) => ofTasks(tasks))), GENERAL];
}

function ofTasks(tasks: readonly Task[]): string[] {
  return tasks.flatMap((task) => {
    const together = task.people > 1 ? [`${task.people} people at once`] : [];
    const words = [...together, ...taskCautions(task)];
    return words.length === 0 ? [] : [`${task.id}: ${words.join("; ")}`];
  });
}

/** The lift and the words of caution of one task. */
export function taskCautions({ lift, caution }: Task): string[] {
  return [...(lift === null ? [] : [`lift of ${lift}`]), ...(caution === null ? [] : [caution])];
}
