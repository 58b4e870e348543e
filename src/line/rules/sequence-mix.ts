import { compare, type Ratio, ratio, subtract } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { sharesOf, sumOfAmounts } from "../draft-models.js";
import type { LineDraft } from "../line-draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "sequence-mix";

/** Shares are often rounded, so that a sequence cannot meet them closer. */
const TOLERANCE = ratio(1, 200);

export const sequenceMix: LineRule = {
  name,
  purpose: "Warns where the sequence does not hold the models in their shares.",
  check(draft) {
    const { sequence } = draft.keys;
    const sum = sumOfAmounts(draft.models);
    if (sequence === undefined || sequence.items.length === 0 || sum === null || sum.value.num === 0n)
      return [];
    const counts = countModels(draft, sequence.items);
    if (counts === null) return [];
    const rows = sharesOf(draft.models).map((share, model) => ({
      id: draft.models.models[model]!.id,
      share,
      inSequence: ratio(counts[model]!, sequence.items.length),
    }));
    if (rows.every(({ share, inSequence }) => isNear(share, inSequence))) return [];
    const told = (key: "share" | "inSequence") =>
      rows.map((each) => `${each.id} ${percent(each[key])}`).join(", ");
    const absent = rows.filter((each) => each.inSequence.num === 0n && each.share.num > 0n);
    const missing = absent.length === 0 ? "" : `; ${absent.map(({ id }) => id).join(", ")} is missing`;
    const message = `sequence: it holds ${told("inSequence")}, and \`models\` say ${told("share")}${missing}`;
    return [found(name, draft, { severity: "warning", message, place: sequence.place })];
  },
};

/** How often each model stands there; null where a name is none of them. */
function countModels({ models }: LineDraft, items: readonly { readonly value: string }[]): number[] | null {
  const counts = models.models.map(() => 0);
  for (const { value } of items) {
    const model = models.numberOf(value);
    if (model === undefined) return null;
    counts[model]!++;
  }
  return counts;
}

function isNear(one: Ratio, two: Ratio): boolean {
  return compare(subtract(one, two), TOLERANCE) <= 0 && compare(subtract(two, one), TOLERANCE) <= 0;
}
