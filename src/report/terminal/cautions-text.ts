import { CAUTION, cautionWords, type TaskCaution } from "../cautions.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** The last part of a report: the tasks that need caution, and what no balance says. */
export function cautionText(cautions: readonly TaskCaution[], look: Look): string {
  const told = [...cautions.map(cautionWords), CAUTION];
  return headed("caution", told.map((words) => paragraph(words, look)).join(""), look);
}
