import type { Place } from "../findings/finding.js";
import type { AfterValue, TaskKeys, TaskValue } from "./line-keys.js";
import type { RecordEntry, TextDraft } from "./schema/draft.js";

export interface DraftTask {
  /** As typed. */
  readonly id: string;
  readonly place: Place;
  readonly pieceTime: TextDraft<number> | undefined;
  readonly after: readonly AfterDraft[];
  /** What else is given of the task; empty where only a bare time is. */
  readonly keys: TaskKeys;
}

/** A task named in `after`, with what lies between. */
export interface AfterDraft {
  readonly named: TextDraft<string>;
  readonly wait: TextDraft<number> | undefined;
  readonly stations: TextDraft<number> | undefined;
}

export function draftTask({ id, place, value }: RecordEntry<TaskValue>): DraftTask {
  if (value?.kind !== "object") return { id, place, pieceTime: value, after: [], keys: {} };
  const { after } = value.at;
  const list = after === undefined ? [] : after.kind === "list" ? after.items : [after];
  return { id, place, pieceTime: value.at.time, after: list.flatMap(draftAfter), keys: value.at };
}

function draftAfter(entry: AfterValue): AfterDraft[] {
  if (entry.kind === "text") return [{ named: entry, wait: undefined, stations: undefined }];
  const { task, wait, stations } = entry.at;
  return task === undefined ? [] : [{ named: task, wait, stations }];
}
