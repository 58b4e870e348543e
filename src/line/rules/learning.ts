import type { Finding } from "../../findings/finding.js";
import { longTime } from "../../time/show-values.js";
import { LearningCurve } from "../learning-curve.js";
import type { LineDraft } from "../line-draft.js";
import { isWhole, type StatedLearning, statedLearning } from "../parts/learning.js";
import type { TaskKeys } from "../parts/task.js";
import { found, type LineRule } from "./line-rule.js";

export const learningShare: LineRule = {
  name: "learning-share",
  purpose: "Whoever learns has a share that remains at each doubling.",
  check: (draft) =>
    judgeStated(draft, "learning-share", ({ share }, keys) =>
      share === undefined && keys.share === undefined && !isFaultyAtLine(draft)
        ? "`share` is missing, the share of the time that remains at each doubling of the units; write {share: 85 %, ...}"
        : null,
    ),
};

export const learningEnds: LineRule = {
  name: "learning-ends",
  purpose: "Learning from the first unit on says how far it goes.",
  check: (draft) =>
    judgeStated(draft, "learning-ends", ({ share, timeAt, least }) =>
      timeAt === 1 && isWhole(least) && share !== undefined && !isWhole(share)
        ? "the first unit takes `time` (time-at: 1) and no unit less, so nothing is learned; write `least: 60 %` for how far times fall, or `least: 0 %` for no end"
        : null,
    ),
};

/** The line gives a share that could not be read, which is told already. */
function isFaultyAtLine({ places, keys: { learning } }: LineDraft): boolean {
  if (learning === undefined) return places.learning !== undefined;
  return learning.kind === "object" && learning.keys.share !== undefined && learning.at.share === undefined;
}

export const learningTime: LineRule = {
  name: "learning-time",
  purpose: "What the first unit takes can be counted exactly.",
  check: (draft) =>
    draft.tasks.flatMap(({ id, pieceTimes, place, keys: { learning, quantity } }) => {
      const stated = statedLearning(draft.keys.learning, learning);
      if (stated?.share === undefined) return [];
      const curve = new LearningCurve({ ...stated, share: stated.share });
      const pieces = quantity?.kind === "record" ? quantity.entries.map(({ value }) => value) : [quantity];
      const most = Math.max(1, ...pieces.map((each) => each?.value ?? 1));
      const longest = most * Math.max(0, ...pieceTimes.map(({ given }) => given.value ?? 0));
      if (!Number.isSafeInteger(longest) || Number.isSafeInteger(curve.timeOf(longest, stated.built + 1)))
        return [];
      const message = `task ${id}, learning: the first unit would take more than ${longTime(Number.MAX_SAFE_INTEGER)}, the most that is counted exactly; a smaller \`time-at\` or a larger share is meant`;
      return [
        found("learning-time", draft, {
          severity: "error",
          message,
          place: learning?.place ?? place,
          task: id,
        }),
      ];
    }),
};

type StatedKeys = Extract<NonNullable<TaskKeys["learning"]>, { kind: "object" }>["keys"];

/** A finding where what is said of learning at the line, and then at each task, has a problem that was not told before. */
function judgeStated(
  draft: LineDraft,
  rule: string,
  problemOf: (stated: StatedLearning, keys: StatedKeys) => string | null,
): Finding[] {
  const ofLine = draft.keys.learning;
  const judge = (given: TaskKeys["learning"], stated: StatedLearning | null) =>
    given === undefined || stated === null
      ? null
      : problemOf(stated, given.kind === "object" ? given.keys : {});
  const atLine = judge(ofLine, statedLearning(ofLine, undefined));
  const findings =
    atLine === null
      ? []
      : [found(rule, draft, { severity: "error", message: `learning: ${atLine}`, place: ofLine!.place })];
  if (atLine !== null) return findings;
  return draft.tasks.flatMap(({ id, keys: { learning } }) => {
    const problem = judge(learning, statedLearning(ofLine, learning));
    if (problem === null) return [];
    const message = `task ${id}, learning: ${problem}`;
    return [found(rule, draft, { severity: "error", message, place: learning!.place, task: id })];
  });
}
