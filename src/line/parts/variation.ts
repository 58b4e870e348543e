import * as z from "zod";
import { ONE } from "../../time/ratio.js";
import { readSurplus } from "../../time/share.js";
import { SPREADS, type Variation } from "../line.js";
import type { Draft, ObjectDraft } from "../read/draft.js";
import { choice, text } from "../read/leaf.js";
import { readChoice } from "../text-values.js";

/** How the times of tasks vary from unit to unit. */
export const variationKeys = () => ({
  variation: variationSchema(
    "How the times of tasks vary from unit to unit, for `simulate`. Default: they do not.",
  ).optional(),
});

/** How the time of a task varies. */
export const variationKeysOfTask = () => ({
  variation: variationSchema("How the time of the task varies, in place of that of the line.").optional(),
});

function variationSchema(description: string) {
  return z
    .strictObject({
      shape: choice(
        "choice",
        "The distribution of the times: exponential, normal, lognormal or triangular. Normal and triangular times lie evenly around the mean, from 0 to twice of it.",
        SPREADS,
        readChoice("a distribution", SPREADS),
      ),
      cv: text(
        "share",
        "Standard deviation / mean (coefficient of variation), such as 20 %. It is 100 % for exponential times.",
        readSurplus,
      ).optional(),
    })
    .meta({ description });
}

export type VariationDraft = Draft<ReturnType<typeof variationSchema>>;

type VariationKeys = ObjectDraft<ReturnType<typeof variationKeys>>["at"];

/** Variation of a task, of a draft without errors; null where its time is always the same. */
export function variationOf(ofLine: VariationKeys, ofTask: VariationKeys): Variation | null {
  const stated = ofTask.variation ?? ofLine.variation;
  if (stated === undefined) return null;
  const { shape, cv } = stated.at;
  const given = cv?.value ?? ONE;
  return given.num === 0n ? null : { shape: shape!.value, cv: given };
}
