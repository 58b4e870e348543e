import { add, divide, ONE, type Ratio, ZERO } from "../time/ratio.js";
import { idKey } from "./ids.js";
import type { LineKeys } from "./line-keys.js";
import type { ModelAmount } from "./model-values.js";
import { compareNaturally } from "./natural-order.js";

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

export function draftModels(list: LineKeys["models"], given: boolean): ModelsDraft {
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
