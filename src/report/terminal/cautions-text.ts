import { CAUTION, cautionWords, type TaskCaution } from "../cautions.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** The last part of a report: the tasks that need caution, a line each, and what no balance says. */
export function cautionText(cautions: readonly TaskCaution[], look: Look): string {
  return textOf([...cautions.map(cautionWords), CAUTION], look);
}

/** The same in few lines, for a screen that is read in one look; in a pipe, which has room, a line each. */
export function cautionsInShort(cautions: readonly TaskCaution[], look: Look): string {
  if (!Number.isFinite(look.width) || cautions.length < 2) return cautionText(cautions, look);
  return textOf([`${cautions.map(cautionWords).join(". ")}.`, CAUTION], look);
}

const textOf = (told: readonly string[], look: Look): string =>
  headed("caution", told.map((words) => paragraph(words, look)).join(""), look);
