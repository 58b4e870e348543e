import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { quoted } from "../../time/quoted.js";
import { add, divide, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { readPart, readSurplus } from "../../time/share.js";
import { idKey } from "../ids.js";
import type { Line } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { named, text, textOrNumber } from "../read/leaf.js";

/** What a line that builds several models says of them, and how uneven the work of its units may be; a bare time is in `unit`. */
export const modelKeys = (unit: TimeUnit | null) => ({
  models: z
    .record(
      named("The name of the model."),
      textOrNumber("model-amount", "Its share, such as 60 %, or units of it, such as 120.", readModelAmount),
    )
    .meta({
      description:
        "The models by name. Each has its share of the good units, or all have quantities such as 120.",
    })
    .optional(),
  sequence: z
    .array(named("A model."))
    .meta({
      description:
        "The models in the order in which units enter the line. The order is repeated again and again.",
    })
    .optional(),
  "model-overload": text(
    "share",
    "How far any model may take a station above its working time, as a share. Default: held on average only.",
    readSurplus,
  ).optional(),
  ...driftKeys(unit, "Default: not judged."),
});

/** How far work may run past the end of a station, of every station or of one. */
export const driftKeys = (unit: TimeUnit | null, otherwise: string) => ({
  "drift-room": textOrNumber(
    "other-time",
    `The drift allowance: a time by which work on a long unit may run past the end of a station. ${otherwise}`,
    (typed) => readDuration(typed, unit),
  ).optional(),
});

/** How much of a model is built: a share of the good units, or a number of units beside those of other models. */
export interface ModelAmount {
  readonly kind: "share" | "units";
  readonly value: Ratio;
}

/** `60 %`, or `120` units. */
function readModelAmount(text: string): Reading<ModelAmount> {
  const trimmed = text.trim();
  const expected = "write a share with its %, such as 60 %, or a whole number of units, such as 120";
  if (trimmed === "") return refuse(`an amount is missing (blank is never 0): ${expected}`);
  if (trimmed.endsWith("%")) {
    const share = readPart(trimmed);
    return share.ok ? accept({ kind: "share", value: share.value }) : share;
  }
  if (!/^\d{1,15}$/u.test(trimmed)) return refuse(`${quoted(trimmed)} is no amount of a model: ${expected}`);
  return accept({ kind: "units", value: ratio(BigInt(trimmed)) });
}

/** The time of a task for one model, null for `-`: the model does not have the task. */
export function readModelTime(text: string, unit: TimeUnit | null): Reading<number | null> {
  if (text.trim() === "-") return accept(null);
  if (text.trim() === "")
    return refuse(
      'a time is missing (blank is never 0): write it, or say "-" where the model does not have the task',
    );
  return readDuration(text, unit);
}

type ModelKeys = ObjectDraft<ReturnType<typeof modelKeys>>["at"];

/** The models of a line as far as they could be read. */
export interface ModelsDraft {
  /** Whether the file has models at all, faulty or not. */
  readonly given: boolean;
  /** Every model written has a name, so that another name is wrong. */
  readonly complete: boolean;
  /** In natural order of ids; the amount is left out where it is faulty. */
  readonly models: readonly { readonly id: string; readonly amount: ModelAmount | undefined }[];
  /** The number of the model that the text names, or undefined. */
  numberOf(name: string): number | undefined;
}

export function draftModels(list: ModelKeys["models"], given: boolean): ModelsDraft {
  const models = (list?.entries ?? [])
    .map(({ id, value }) => ({ id, amount: value?.value }))
    .sort((one, two) => compareNaturally(one.id, two.id));
  const numbers = new Map(models.map(({ id }, number) => [idKey(id), number]));
  const complete = list !== undefined && list.count === models.length;
  return { given, complete, models, numberOf: (name) => numbers.get(idKey(name)) };
}

/** All amounts together; null where one could not be read or where shares and quantities mix. */
export function sumOfAmounts({ models }: ModelsDraft): ModelAmount | null {
  const amounts = models.flatMap(({ amount }) => amount ?? []);
  const [first] = amounts;
  if (first === undefined || amounts.length < models.length) return null;
  if (amounts.some(({ kind }) => kind !== first.kind)) return null;
  return { kind: first.kind, value: amounts.map(({ value }) => value).reduce(add, ZERO) };
}

/** The share of each model, scaled so that all together are 1; one share of 1 where the line builds one model. */
export function sharesOf(draft: ModelsDraft): Ratio[] {
  if (draft.models.length === 0) return [ONE];
  const sum = sumOfAmounts(draft)!.value;
  return draft.models.map(({ amount }) => divide(amount!.value, sum));
}

/** What models make of the line, of a draft without errors. */
export function buildModels(
  keys: ModelKeys,
  draft: ModelsDraft,
): Pick<Line, "models" | "sequence" | "modelOverload" | "driftRoom"> {
  const shares = sharesOf(draft);
  return {
    models: draft.models.map(({ id }, model) => ({ id, share: shares[model]! })),
    sequence: keys.sequence?.items.map(({ value }) => draft.numberOf(value)!) ?? null,
    modelOverload: keys["model-overload"]?.value ?? null,
    driftRoom: keys["drift-room"]?.value ?? null,
  };
}
