import * as z from "zod";
import type { Place } from "../../findings/finding.js";
import type { TimeUnit } from "../../time/duration.js";
import type { Draft, TextDraft } from "../read/draft.js";
import { named, type TimeLeaf, textOrNumber } from "../read/leaf.js";
import { type ByModel, valuesByModel } from "./by-model.js";
import { type ModelsDraft, readModelTime } from "./models.js";

/** The time of one piece, for all models or by model; a bare time is in `unit`. */
export function pieceTimeSchema(time: TimeLeaf, unit: TimeUnit | null) {
  return z
    .union([
      time("task-time", "Time of one piece, for every model."),
      z.record(
        named("A model."),
        textOrNumber("task-time", 'Its time of one piece, or "-" where it does not have the task.', (typed) =>
          readModelTime(typed, unit),
        ),
      ),
    ])
    .meta({
      description:
        'Time of one piece: 40 s, 0.65 min, 65 cmin, 1000 tmu, mm:ss, or a bare number in `unit`. Or a map with the time of every model; "-" where a model does not have the task.',
    });
}

export interface PieceTime {
  /** The model as named, with where it is; null where one time is for all. */
  readonly model: { readonly name: string; readonly place: Place } | null;
  readonly given: TextDraft<number | null>;
}

/** On one of how many units the task is done; 1 is every unit. */
export function everyOf({ keys }: { readonly keys: { readonly every?: TextDraft<number> } }): number {
  return keys.every?.value ?? 1;
}

/** What says which models have a task: "-" in any of these that is given by model. */
export interface TaskOfModels {
  readonly pieceTimes: readonly PieceTime[];
  readonly keys: { readonly quantity?: ByModel<number>; readonly people?: ByModel<number> };
}

/**
 * The time of one piece by model, one entry on a line that builds one; null where the model does not have the task or where its time
 * could not be read.
 */
export function modelTimes({ pieceTimes, keys }: TaskOfModels, models: ModelsDraft): (number | null)[] {
  const times = ofPieces(pieceTimes, models);
  const others = [keys.quantity, keys.people].map((given) => valuesByModel(given, 1, models));
  return times.map((time, model) => (others.some((values) => values[model] === null) ? null : time));
}

function ofPieces(pieceTimes: readonly PieceTime[], { models, numberOf }: ModelsDraft): (number | null)[] {
  const [first] = pieceTimes;
  const times = Array<number | null>(models.length || 1).fill(null);
  if (first?.model === null) return times.fill(first.given.value);
  for (const { model, given } of pieceTimes) {
    const number = numberOf(model!.name);
    if (number !== undefined) times[number] = given.value;
  }
  return times;
}

export function draftTimes(given: Draft<ReturnType<typeof pieceTimeSchema>> | undefined): PieceTime[] {
  if (given === undefined) return [];
  if (given.kind === "text") return [{ model: null, given }];
  return given.entries.flatMap(({ id, place, value }) =>
    value === undefined ? [] : [{ model: { name: id, place }, given: value }],
  );
}
