import { columns as earliestColumns } from "../../line/precedence.js";
import type { Rule } from "./rule.js";

/** Tasks of the earliest column of the precedence diagram first; a column counts the longest chain of arrows to a task. */
export const columns: Rule = {
  name: "columns",
  ranks: "earliest column of the precedence diagram",
  source: "Kilbridge and Wester, Journal of Industrial Engineering 12 (1961)",
  score: ({ before }) => earliestColumns(before).map((column) => -column),
  reads: { as: "count", lowFirst: true },
};
