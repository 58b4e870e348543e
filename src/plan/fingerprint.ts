import { createHash } from "node:crypto";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { floorContent } from "./floor-content.js";

/**
 * A short fingerprint of what a plan was made from, besides the line cycle: tasks, their times, quantities and arrows,
 * handling and plan-to, and whatever the line says of its floor, people, models and tests. It is taken over parsed data, so
 * comments, order of keys and line ends do not change it; nor does anything that a line is silent about.
 */
export function fingerprintOf(line: Line): string {
  const order = modelsById(line);
  const tasks = line.tasks.map(({ id, times, quantity, onBase }, at) => [
    idKey(id),
    times.length === 1 ? times : order.map((model) => times[model]!),
    quantity,
    onBase,
    line.before[at]!,
  ]);
  const planTo = [String(line.planTo.num), String(line.planTo.den)];
  const floor = floorContent(line, order);
  const content = ["linepoise-plan/1", line.handling, planTo, tasks, ...(floor === null ? [] : [floor])];
  return createHash("sha256").update(JSON.stringify(content), "utf8").digest("hex").slice(0, 16);
}

/** Numbers of models in the order of their ids, whatever their order in the file. */
function modelsById({ models }: Line): number[] {
  const keys = models.map(({ id }) => idKey(id));
  return [...keys.keys()].sort((one, two) => (keys[one]! < keys[two]! ? -1 : 1));
}
