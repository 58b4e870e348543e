import * as z from "zod";
import { ONE, type Ratio } from "../../time/ratio.js";
import { readLearnedShare, readPart } from "../../time/share.js";
import { LEARNED_BY, type Learning } from "../line.js";
import type { Draft, ObjectDraft } from "../read/draft.js";
import { choice, text, textOrNumber } from "../read/leaf.js";
import { readChoice } from "../text-values.js";
import { readUnitNumber, readUnitsFromZero } from "../whole-numbers.js";

/** How people learn the tasks of a line. */
export const learningKeys = () => ({
  learning: learningSchema(
    "The share of the times of tasks that remains at each doubling of the units, or a map. `ramp` and `rebalance --learning` ask for it. Default: 100 %.",
  ).optional(),
});

/** How people learn a task. */
export const learningKeysOfTask = () => ({
  learning: learningSchema(
    "How the time of the task falls; what it leaves out is as for the line. 100 % for a task that nobody learns.",
  ).optional(),
});

function learningSchema(description: string) {
  const share = (words: string) => text("share", words, readLearnedShare);
  return z
    .union([
      share("The share of the time that remains at each doubling of the units, such as 85 %."),
      z
        .strictObject({
          share: share("The share of the time that remains at each doubling of the units built.").optional(),
          by: choice(
            "choice",
            "What falls so: the time of each unit (`unit`, Crawford) or the mean of all so far (`average`, Wright). Default: unit.",
            LEARNED_BY,
            readChoice("what is learned by", LEARNED_BY),
          ).optional(),
          "time-at": textOrNumber(
            "count",
            "The unit that takes `time`; earlier units take more. With 1, `time` is that of the first unit. Default: 1000.",
            readUnitNumber,
          ).optional(),
          least: text(
            "share",
            "The least time that is ever reached, as a share of `time`. Default: 100 %, so `time` is never beaten.",
            readPart,
          ).optional(),
          built: textOrNumber(
            "count",
            "Units built before, on which the work was learned already. Default: 0.",
            readUnitsFromZero,
          ).optional(),
        })
        .meta({ description: "How times fall: {share: 85 %, time-at: 500, built: 120}." }),
    ])
    .meta({ description });
}

type LearningDraft = Draft<ReturnType<typeof learningSchema>>;

/** What holds where neither a task nor the line says otherwise. */
const USUAL = { by: "unit", timeAt: 1000, least: ONE, built: 0 } as const;

/** What is said of learning, at one place or at a task and the line together; the share is undefined where it is missing or faulty. */
export type StatedLearning = Omit<Learning, "share"> & { readonly share: Ratio | undefined };

/** What is said of learning at a task, and for the rest at the line; null where neither says anything. */
export function statedLearning(
  ofLine: LearningDraft | undefined,
  ofTask: LearningDraft | undefined,
): StatedLearning | null {
  if (ofLine === undefined && ofTask === undefined) return null;
  return { share: undefined, ...USUAL, ...saidBy(ofLine), ...saidBy(ofTask) };
}

function saidBy(draft: LearningDraft | undefined): Partial<Learning> {
  if (draft === undefined) return {};
  if (draft.kind === "text") return { share: draft.value };
  const { share, by, least, built, "time-at": timeAt } = draft.at;
  return {
    ...(share && { share: share.value }),
    ...(by && { by: by.value }),
    ...(timeAt && { timeAt: timeAt.value }),
    ...(least && { least: least.value }),
    ...(built && { built: built.value }),
  };
}

type LearningKeys = ObjectDraft<ReturnType<typeof learningKeys>>["at"];

/** Learning of a task, of a draft without errors; null where nothing is said of it, or where its time always stays. */
export function learningOf(ofLine: LearningKeys, ofTask: LearningKeys): Learning | null {
  const stated = statedLearning(ofLine.learning, ofTask.learning);
  if (stated?.share === undefined || isWhole(stated.share)) return null;
  return { ...stated, share: stated.share };
}

export const isWhole = ({ num, den }: Ratio): boolean => num === den;
