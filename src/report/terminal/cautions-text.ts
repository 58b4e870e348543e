import type { Line, Task } from "../../line/line.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";

const GENERAL =
  "A balanced time is not a safety assessment. Lifts, electrical, brake and pressure tests, pace and repetition follow local codes and the judgement of qualified people.";

/** The cautions that tasks carry, and what the balance does not say. */
export function cautionLines(line: Pick<Line, "tasks">, look: Look): string {
  const tasks = line.tasks.flatMap((task) => {
    const together = task.people > 1 ? [`${task.people} people at once`] : [];
    const words = [...together, ...taskCautions(task)];
    return words.length === 0 ? [] : [paragraph(`${task.id}: ${words.join("; ")}`, look)];
  });
  return [...tasks, paragraph(GENERAL, look)].join("");
}

/** The lift and the words of caution of one task. */
export function taskCautions({ lift, caution }: Task): string[] {
  return [...(lift === null ? [] : [`lift of ${lift}`]), ...(caution === null ? [] : [caution])];
}
