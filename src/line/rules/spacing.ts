import { countOf } from "../../findings/count-of.js";
import { quoted } from "../../time/quoted.js";
import { add, compare, type Ratio, ZERO } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import type { LineDraft } from "../line-draft.js";
import { sharesOf, sumOfAmounts } from "../parts/models.js";
import { brokenStretches, modelsNamed, type Stretch, shareAllowed } from "../parts/spacing.js";
import { found, type LineRule, refuseUnknown } from "./line-rule.js";
import { namesOfParts } from "./parts.js";

export const unknownSpacing: LineRule = {
  name: "unknown-spacing",
  purpose: "Every spacing is of a model, a task or a part, and it is clear of which.",
  check(draft) {
    const { given, complete, models } = draft.models;
    const entries = draft.keys.spacing?.entries ?? [];
    if (!given || !complete || models.length === 0) return [];
    const names = [...[...models, ...draft.tasks].map(({ id }) => id), ...namesOfParts(draft)];
    const refuse = (id: string) => `no model, no task and no part is called ${id}`;
    const used = entries.map(({ id, place }) => ({
      named: { text: id, value: id, place },
      where: "spacing",
      task: null,
    }));
    const both = entries
      .filter(({ id }) => new Set(modelsNamed(id, draft).map((each) => each.join())).size > 1)
      .map(({ id, place }) => {
        const message = `spacing: ${quoted(id)} names two of a model, a task and a part, of other units each; call one of them otherwise, so that it is clear what is spaced`;
        return found("unknown-spacing", draft, { severity: "error", message, place });
      });
    return [...refuseUnknown("unknown-spacing", draft, { names, refuse }, used), ...both];
  },
};

export const spacingSum: LineRule = {
  name: "spacing-sum",
  purpose: "No more units are to be spaced than a spacing allows.",
  check(draft) {
    return spacingsOf(draft).flatMap(({ id, place, models, stretch, shares }) => {
      const all = models.map((model) => shares[model]!).reduce(add, ZERO);
      const allowed = shareAllowed(stretch);
      if (compare(all, allowed) <= 0) return [];
      const built = models.filter((model) => shares[model]!.num > 0n);
      const parts = built.map((model) => `${draft.models.models[model]!.id} ${percent(shares[model]!, 2)}`);
      const sum = parts.length > 1 ? `${parts.join(" + ")} = ${percent(all, 2)}` : percent(all, 2);
      const message = `spacing, ${id}: ${stretch.most} in ${stretch.of} allows ${percent(allowed, 2)} of the units, and ${sum} of them are of it; no order keeps that`;
      return [found("spacing-sum", draft, { severity: "error", message, place })];
    });
  },
};

export const spacingInSequence: LineRule = {
  name: "spacing-in-sequence",
  purpose: "Warns where the sequence does not keep a spacing.",
  check(draft) {
    const { sequence } = draft.keys;
    const models = (sequence?.items ?? []).map(({ value }) => draft.models.numberOf(value));
    if (sequence === undefined || models.length === 0 || models.length < sequence.count) return [];
    if (models.some((model) => model === undefined)) return [];
    return spacingsOf(draft).flatMap(({ id, models: spaced, stretch }) => {
      const broken = brokenStretches(
        models.map((model) => model!),
        { models: spaced, ...stretch },
      );
      const [first] = broken;
      if (first === undefined) return [];
      const more =
        broken.length === 1
          ? ""
          : `; ${broken.length} of ${countOf(models.length, "such row")} hold too many`;
      const message = `sequence: ${first.within} of the ${stretch.of} units from unit ${first.from + 1} on are of ${id}, and spacing allows ${stretch.most}${more}`;
      return [found("spacing-in-sequence", draft, { severity: "warning", message, place: sequence.place })];
    });
  },
};

/** The spacings that could be read, of names that are clear, with the shares of the models. */
function spacingsOf(draft: LineDraft) {
  const sum = sumOfAmounts(draft.models);
  if (sum === null || sum.value.num === 0n) return [];
  const shares: readonly Ratio[] = sharesOf(draft.models);
  return (draft.keys.spacing?.entries ?? []).flatMap(({ id, place, value }) => {
    const [models] = modelsNamed(id, draft);
    if (value === undefined || models === undefined) return [];
    const stretch: Stretch = value.value;
    return [{ id, place, models, stretch, shares }];
  });
}
