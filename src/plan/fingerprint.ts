import { createHash } from "node:crypto";
import type { Line } from "../line/line.js";

/**
 * A short fingerprint of what a plan was made from, besides the line cycle: tasks, their times, quantities and arrows,
 * handling and plan-to. It is taken over parsed data, so comments, order of keys and line ends do not change it.
 */
export function fingerprintOf(line: Line): string {
  const tasks = line.tasks.map(({ id, times, quantity, onBase }, at) => [
    id.normalize("NFC").trim(),
    times,
    quantity,
    onBase,
    line.before[at]!,
  ]);
  const planTo = [String(line.planTo.num), String(line.planTo.den)];
  const content = JSON.stringify(["linepoise-plan/1", line.handling, planTo, tasks]);
  return createHash("sha256").update(content, "utf8").digest("hex").slice(0, 16);
}
