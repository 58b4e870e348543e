import * as z from "zod";
import { squareRoot } from "../../time/normal-share.js";
import { compare, ONE, type Ratio, ratio } from "../../time/ratio.js";
import { readSurplus } from "../../time/share.js";
import type { Micros } from "../../time/units.js";
import { SPREADS, type Variation } from "../line.js";
import type { Draft, ListDraft, ObjectDraft, TextDraft } from "../read/draft.js";
import { choice, type TimeLeaf, text } from "../read/leaf.js";
import { readChoice } from "../text-values.js";

/** How the times of tasks vary from unit to unit. */
export const variationKeys = () => ({
  variation: variationSchema(
    "How the times of tasks vary from unit to unit, for `simulate` and `keep-pace`. Default: they do not.",
  ).optional(),
});

/** How the time of a task varies. */
export const variationKeysOfTask = () => ({
  variation: variationSchema("How the time of the task varies, in place of that of the line.").optional(),
});

/** Times that were taken of a task. */
export const measuredKeysOfTask = (time: TimeLeaf) => ({
  measured: z
    .array(time("other-time", "One of them."))
    .meta({
      description:
        "Times that were taken of one piece, two or more, as `study --keep-readings` writes them. For `simulate` the time of each unit is one of them, in proportion, so that `time` stays the mean. They stand in place of `variation` and `spread`.",
    })
    .optional(),
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

/** The most that times may vary which lie evenly around their mean and are never below 0; the normal ones keep 3 standard deviations. */
export const MOST_CV: Partial<Record<Variation["shape"], Ratio>> = {
  normal: ratio(33, 100),
  triangular: ratio(40, 100),
};

interface OwnKeys extends VariationKeys {
  readonly measured?: ListDraft<TextDraft<Micros>>;
  readonly spread?: { readonly value: Micros };
}

/**
 * Variation of a task, of a draft without errors; null where its time is always the same. Measured times come first, then its own, then the spread that a
 * study found, then that of the line.
 *
 * @param pieces times of one piece by model, in microseconds
 */
export function variationOf(
  ofLine: VariationKeys,
  ofTask: OwnKeys,
  pieces: readonly (Micros | null)[],
): Variation | null {
  if (ofTask.measured !== undefined) return ofMeasured(ofTask.measured.items.map(({ value }) => value));
  const studied = ofTask.variation === undefined && ofTask.spread !== undefined;
  if (studied) return ofStudy(ofTask.spread.value, pieces, ofLine.variation?.at.shape?.value ?? "normal");
  const stated = ofTask.variation ?? ofLine.variation;
  if (stated === undefined) return null;
  const { shape, cv } = stated.at;
  const given = cv?.value ?? ONE;
  return given.num === 0n ? null : { shape: shape!.value, cv: given };
}

/** Decimals of the coefficient of variation of measured times. */
const CV_SCALE = 10n ** 12n;

/** Null where all are alike. Their deviation is that of what is drawn, with n. */
function ofMeasured(times: readonly Micros[]): Variation | null {
  const sum = times.reduce((all, each) => all + BigInt(each), 0n);
  const squares = times.reduce((all, each) => all + BigInt(each) ** 2n, 0n);
  const scatter = BigInt(times.length) * squares - sum * sum;
  if (scatter === 0n) return null;
  const cv = ratio(squareRoot(scatter * CV_SCALE * CV_SCALE), sum * CV_SCALE);
  return { shape: "measured", cv, factors: times.map((each) => (each * times.length) / Number(sum)) };
}

/** Spread / mean time of a piece; a shape that times cannot have which vary so much gives way to lognormal ones. */
function ofStudy(
  spread: Micros,
  pieces: readonly (Micros | null)[],
  shape: Variation["shape"],
): Variation | null {
  const times = pieces.filter((each) => each !== null);
  const sum = times.reduce((all, each) => all + BigInt(each), 0n);
  if (spread === 0 || sum === 0n) return null;
  const cv = ratio(BigInt(spread) * BigInt(times.length), sum);
  const most = MOST_CV[shape];
  const fits =
    shape === "exponential" ? compare(cv, ONE) === 0 : most === undefined || compare(cv, most) <= 0;
  return { shape: fits ? shape : "lognormal", cv };
}
