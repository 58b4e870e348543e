import type { Place } from "../findings/finding.js";
import type { OffLineDraft } from "./draft-options.js";
import { idKey } from "./ids.js";
import type { LineDraft } from "./line-draft.js";

/** The tasks of a block that exist, each with where it is named; those of a bench are named where the bench is. */
export function tasksOfBlock(
  draft: LineDraft,
  block: OffLineDraft,
): readonly { readonly task: number; readonly place: Place }[] {
  if (block.kind === "tasks") return block.tasks;
  const bench = draft.benches.find(({ id }) => idKey(id) === idKey(block.named.value));
  return (bench?.tasks ?? []).map(({ task }) => ({ task, place: block.place }));
}
