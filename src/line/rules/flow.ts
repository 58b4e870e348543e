import type { Finding } from "../../findings/finding.js";
import { compare, ONE } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import type { LineDraft } from "../line-draft.js";
import { MOST_CV, type VariationDraft } from "../parts/variation.js";
import { found, type LineRule } from "./line-rule.js";

export const variationCv: LineRule = {
  name: "variation-cv",
  purpose: "Times that vary say how much, and no more than their distribution can.",
  check(draft) {
    const judge = (given: VariationDraft | undefined, task: string | null): Finding[] => {
      const problem = given === undefined ? null : problemOf(given);
      if (problem === null) return [];
      const message = `${task === null ? "" : `task ${task}, `}variation: ${problem}`;
      return [found("variation-cv", draft, { severity: "error", message, place: given!.place, task })];
    };
    return [
      ...judge(draft.keys.variation, null),
      ...draft.tasks.flatMap(({ id, keys }) => judge(keys.variation, id)),
    ];
  },
};

function problemOf({ at: { shape, cv }, keys }: VariationDraft): string | null {
  if (shape === undefined || (keys.cv !== undefined && cv === undefined)) return null;
  if (shape.value === "exponential") {
    if (cv === undefined || compare(cv.value, ONE) === 0) return null;
    return "exponential times have a `cv` of 100 %; leave `cv` out, or name another shape";
  }
  if (cv === undefined) return "`cv` is missing, standard deviation / mean; write {shape: normal, cv: 20 %}";
  const most = MOST_CV[shape.value];
  if (most === undefined || compare(cv.value, most) <= 0) return null;
  return `${shape.value} times vary by ${percent(most)} at most, since none is below 0; lognormal times may vary more`;
}

export const measuredTimes: LineRule = {
  name: "measured-times",
  purpose:
    "Times that were taken of a task are two or more, some above 0, and nothing else says how its time varies.",
  check(draft) {
    return draft.tasks.flatMap(({ id, keys: { measured, variation } }) => {
      if (measured === undefined) return [];
      const refuse = (message: string) => [
        found("measured-times", draft, {
          severity: "error",
          message: `task ${id}: ${message}`,
          place: measured.place,
          task: id,
        }),
      ];
      if (variation !== undefined)
        return refuse("`measured` and `variation` both say how the time varies; leave one of them out");
      if (measured.count < 2)
        return refuse("`measured` needs two times or more, such as [58 s, 61 s]; one does not vary");
      const isWhole = measured.items.length === measured.count;
      return isWhole && measured.items.every(({ value }) => value === 0)
        ? refuse("`measured` needs a time above 0")
        : [];
    });
  },
};

export const pacedBuffers: LineRule = {
  name: "paced-buffers",
  purpose: "Buffers stand between the stations of an unpaced line only.",
  check(draft) {
    const { pacing, buffer, buffers } = draft.keys;
    if (pacing === undefined || pacing.value === "unpaced") return [];
    return [buffer, buffers].flatMap((given) =>
      given === undefined ? [] : [refuseBuffer(draft, pacing.value, given.place)],
    );
  },
};

function refuseBuffer(draft: LineDraft, pacing: string, place: Finding["place"]): Finding {
  const message = `a buffer has no use with \`pacing: ${pacing}\`, where all units move together; leave one of them out`;
  return found("paced-buffers", draft, { severity: "error", message, place });
}
