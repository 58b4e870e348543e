import { type Finding, finding } from "../../findings/finding.js";
import type { LineDraft } from "../line-draft.js";

/** One check of a line file. Every rule sees whatever could be read, so that no fault hides another. */
export interface LineRule {
  /** The name in brackets behind each of its findings. */
  readonly name: string;
  /** What it looks for, in one line. */
  readonly purpose: string;
  check(draft: LineDraft): Finding[];
}

/** A finding of a rule in the file of the draft. */
export function found(
  rule: string,
  draft: LineDraft,
  given: Pick<Finding, "severity" | "message" | "place"> & Partial<Finding>,
): Finding {
  return finding({ rule, file: draft.file, ...given });
}
