import { compare, ONE, ratio, subtract } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { type ModelsDraft, sumOfAmounts } from "../draft-models.js";
import { found, type LineRule } from "./line-rule.js";

const name = "models-sum";

/** Shares that are rounded, such as 33.3 % three times, may miss 100 % by so much. */
const TOLERANCE = ratio(1, 200);

export const modelsSum: LineRule = {
  name,
  purpose: "The models are all in shares that make 100 %, or all in quantities.",
  check(draft) {
    const verdict = judge(draft.models);
    if (verdict === null) return [];
    const message = `models: ${verdict.words}`;
    return [found(name, draft, { severity: verdict.severity, message, place: draft.keys.models!.place })];
  },
};

function judge(models: ModelsDraft): { severity: "error" | "note"; words: string } | null {
  const kinds = new Set(models.models.flatMap(({ amount }) => amount?.kind ?? []));
  if (kinds.size > 1) {
    const words = `${namesOf(models, "share")} in shares and ${namesOf(models, "units")} in quantities do not go together; give all models shares, or all of them quantities`;
    return { severity: "error", words };
  }
  const sum = sumOfAmounts(models);
  if (sum === null) return null;
  if (sum.value.num === 0n) {
    return { severity: "error", words: "they come to nothing; at least one model is built" };
  }
  if (sum.kind === "units" || compare(sum.value, ONE) === 0) return null;
  const gap = subtract(sum.value, ONE);
  const size = gap.num < 0n ? subtract(ONE, sum.value) : gap;
  const all = percent(sum.value, 3);
  if (compare(size, TOLERANCE) <= 0) {
    const words = `the shares come to ${all} and are scaled to 100 %; from 99.5 % to 100.5 % this is done`;
    return { severity: "note", words };
  }
  const words = `the shares come to ${all}, and 100 % is expected; correct them, or give quantities such as 120, which need no sum`;
  return { severity: "error", words };
}

function namesOf({ models }: ModelsDraft, kind: "share" | "units"): string {
  return models.flatMap(({ id, amount }) => (amount?.kind === kind ? [id] : [])).join(", ");
}
