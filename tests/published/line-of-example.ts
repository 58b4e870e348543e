import { stringify } from "yaml";
import type { ExampleTask } from "../tools/read-worked-examples.js";

/** A line file from an example's tasks, with further keys such as `demand` in front of them. */
export function lineOfExample(
  name: string,
  unit: string,
  tasks: readonly ExampleTask[],
  further: Record<string, unknown> = {},
): string {
  const written = new Map(
    tasks.map(({ id, time, after }) => [id, after.length > 0 ? { time, after: [...after] } : { time }]),
  );
  return stringify({ line: name, unit, ...further, tasks: written });
}
