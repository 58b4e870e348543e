import type { Place } from "../findings/finding.js";
import type { ModelsDraft } from "./draft-models.js";
import type { AfterValue, TaskKeys, TaskValue } from "./line-keys.js";
import type { RecordEntry, TextDraft } from "./read/draft.js";

export interface DraftTask {
  /** As typed. */
  readonly id: string;
  readonly place: Place;
  /** Times of one piece as far as they could be read; null where a model does not have the task. */
  readonly pieceTimes: readonly PieceTime[];
  readonly after: readonly AfterDraft[];
  /** What else is given of the task; empty where only a bare time is. */
  readonly keys: TaskKeys;
}

export interface PieceTime {
  /** The model as named, with where it is; null where one time is for all. */
  readonly model: { readonly name: string; readonly place: Place } | null;
  readonly given: TextDraft<number | null>;
}

/** A task named in `after`, with what lies between. */
export interface AfterDraft {
  readonly named: TextDraft<string>;
  readonly wait: TextDraft<number> | undefined;
  readonly stations: TextDraft<number> | undefined;
  readonly model: TextDraft<string> | undefined;
}

export function draftTask({ id, place, value }: RecordEntry<TaskValue>): DraftTask {
  if (value?.kind !== "object") return { id, place, pieceTimes: draftTimes(value), after: [], keys: {} };
  const { after, time } = value.at;
  const list = after === undefined ? [] : after.kind === "list" ? after.items : [after];
  return { id, place, pieceTimes: draftTimes(time), after: list.flatMap(draftAfter), keys: value.at };
}

/** On one of how many units the task is done; 1 is every unit. */
export function everyOf({ keys }: Pick<DraftTask, "keys">): number {
  return keys.every?.value ?? 1;
}

/**
 * The time of one piece by model, one entry on a line that builds one; null where the model does not have the task or where its time
 * could not be read.
 */
export function modelTimes({ pieceTimes }: DraftTask, { models, numberOf }: ModelsDraft): (number | null)[] {
  const [first] = pieceTimes;
  const times = Array<number | null>(models.length || 1).fill(null);
  if (first?.model === null) return times.fill(first.given.value);
  for (const { model, given } of pieceTimes) {
    const number = numberOf(model!.name);
    if (number !== undefined) times[number] = given.value;
  }
  return times;
}

function draftTimes(given: TaskKeys["time"]): PieceTime[] {
  if (given === undefined) return [];
  if (given.kind === "text") return [{ model: null, given }];
  return given.entries.flatMap(({ id, place, value }) =>
    value === undefined ? [] : [{ model: { name: id, place }, given: value }],
  );
}

function draftAfter(entry: AfterValue): AfterDraft[] {
  if (entry.kind === "text") {
    return [{ named: entry, wait: undefined, stations: undefined, model: undefined }];
  }
  const { task, wait, stations, model } = entry.at;
  return task === undefined ? [] : [{ named: task, wait, stations, model }];
}
