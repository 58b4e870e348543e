import { ceiling, larger, ONE } from "../../time/ratio.js";
import { longTime } from "../../time/show-values.js";
import type { DraftTask } from "../draft-task.js";
import { found, type LineRule } from "./line-rule.js";

const name = "task-time-sum";

export const taskTimeSum: LineRule = {
  name,
  purpose: "All times of the tasks together can be counted exactly.",
  check(draft) {
    const visits = draft.failures.visits?.visits;
    let sum = 0n;
    for (const [number, task] of draft.tasks.entries()) {
      sum += mostTime(task) * ceiling(visits?.[number]?.reduce(larger) ?? ONE) + timeAside(task);
      if (sum <= BigInt(Number.MAX_SAFE_INTEGER)) continue;
      const { id, place } = task;
      const message = `task ${id}: up to here the times of the tasks come to more than ${longTime(Number.MAX_SAFE_INTEGER)}, the most that is counted exactly`;
      return [found(name, draft, { severity: "error", message, place, task: id })];
    }
    return [];
  },
};

/** What the model with the most work takes of the hand and of the machine. */
function mostTime({ pieceTimes, keys }: DraftTask): bigint {
  const longest = pieceTimes.reduce((most, { given }) => Math.max(most, given.value ?? 0), 0);
  const ofPiece = BigInt(longest) + BigInt(keys["machine-time"]?.value ?? 0);
  return ofPiece * BigInt(keys.quantity?.value ?? 1) + BigInt(keys.walking?.value ?? 0);
}

/** What passes beside the work: waiting and repairs. */
function timeAside({ after, keys }: DraftTask): bigint {
  const times = [keys.test?.at.repair, ...after.map(({ wait }) => wait)];
  return times.reduce((all, each) => all + BigInt(each?.value ?? 0), 0n);
}
