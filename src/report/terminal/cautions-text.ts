import type { Line } from "../../line/line.js";
import { cautionsOf } from "../cautions.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** The cautions that tasks carry, and what the balance does not say. */
export function cautionLines({ tasks }: Pick<Line, "tasks">, look: Look): string {
  return cautionsOf(tasks)
    .map((words) => paragraph(words, look))
    .join("");
}
