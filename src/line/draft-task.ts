import type { Place } from "../findings/finding.js";
import type { TaskKeys, TaskValue } from "./line-keys.js";
import type { RecordEntry, TextDraft } from "./schema/draft.js";

export interface DraftTask {
  /** As typed. */
  readonly id: string;
  readonly place: Place;
  readonly pieceTime: TextDraft<number> | undefined;
  readonly after: readonly TextDraft<string>[];
  /** What else is given of the task; empty where only a bare time is. */
  readonly keys: TaskKeys;
}

export function draftTask({ id, place, value }: RecordEntry<TaskValue>): DraftTask {
  if (value?.kind !== "object") return { id, place, pieceTime: value, after: [], keys: {} };
  const { after } = value.at;
  const list = after === undefined ? [] : after.kind === "list" ? after.items : [after];
  return { id, place, pieceTime: value.at.time, after: list, keys: value.at };
}
