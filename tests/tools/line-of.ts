import type { Line } from "../../src/line/line.js";
import { readLine } from "../../src/line/read-line.js";
import { type Pace, paceFromCycle } from "../../src/time/pace.js";

/** A line read from the text of a line file; the test fails where the file has a fault. */
export function lineOf(text: string): Line {
  const { line, findings } = readLine("line.yaml", text);
  if (line === null) throw new Error(findings.map((each) => each.message).join("; "));
  return line;
}

/** A line in seconds from lines such as "fit 20 frame true": task, time, tasks before it. A trailing `!` marks the base. */
export function shortLine(rows: readonly string[]): Line {
  const tasks = rows.map((row) => {
    const [id = "", seconds = "", ...after] = row.split(" ");
    const base = id.endsWith("!") ? ", on-base: true" : "";
    return `  ${id.replace("!", "")}: {time: ${seconds}${base}, after: [${after.join(", ")}]}`;
  });
  return lineOf(["line: short line", "unit: s", "tasks:", ...tasks, ""].join("\n"));
}

/** A pace at which a station may take so many seconds. */
export const paceOf = (seconds: number): Pace => paceFromCycle(seconds * 1_000_000);

/** Task numbers by id. */
export function numbersOf(line: Line, ...ids: string[]): number[] {
  return ids.map((id) => {
    const at = line.tasks.findIndex((task) => task.id === id);
    if (at < 0) throw new Error(`no task ${id}`);
    return at;
  });
}

export const idsOf = (line: Line, tasks: readonly number[]): string[] =>
  tasks.map((task) => line.tasks[task]!.id);
