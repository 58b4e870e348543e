import type { Line } from "../../line/line.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";

const GENERAL =
  "A balanced time is not a safety assessment. Lifts, electrical, brake and pressure tests, pace and repetition follow local codes and the judgement of qualified people.";

/** The cautions that tasks carry, and what the balance does not say. */
export function cautionLines(line: Line, look: Look): string {
  const tasks = line.tasks.flatMap((task) => {
    const lift = task.lift === null ? [] : [`lift of ${task.lift}`];
    const words = [...lift, ...(task.caution === null ? [] : [task.caution])];
    return words.length === 0 ? [] : [paragraph(`${task.id}: ${words.join("; ")}`, look)];
  });
  return [...tasks, paragraph(GENERAL, look)].join("");
}
