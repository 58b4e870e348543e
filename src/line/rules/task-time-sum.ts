import { longTime } from "../../time/show-values.js";
import { found, type LineRule } from "./line-rule.js";

const name = "task-time-sum";

export const taskTimeSum: LineRule = {
  name,
  purpose: "All times of the tasks together can be counted exactly.",
  check(draft) {
    let sum = 0n;
    for (const { id, place, pieceTime, after, keys } of draft.tasks) {
      const pieceTimes = [pieceTime, keys["machine-time"]];
      const ofPiece = pieceTimes.reduce((all, each) => all + BigInt(each?.value ?? 0), 0n);
      sum += ofPiece * BigInt(keys.quantity?.value ?? 1) + BigInt(keys.walking?.value ?? 0);
      for (const { wait } of after) sum += BigInt(wait?.value ?? 0);
      if (sum <= BigInt(Number.MAX_SAFE_INTEGER)) continue;
      const message = `task ${id}: up to here the times of the tasks come to more than ${longTime(Number.MAX_SAFE_INTEGER)}, the most that is counted exactly`;
      return [found(name, draft, { severity: "error", message, place, task: id })];
    }
    return [];
  },
};
