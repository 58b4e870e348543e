import { nearestWordsAmong } from "../../findings/nearest.js";
import { quoted } from "../../time/quoted.js";
import { GROUP_KEYS } from "../draft-groups.js";
import type { LineDraft } from "../line-draft.js";
import type { TextDraft } from "../schema/draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "unknown-task";

export const unknownTask: LineRule = {
  name,
  purpose: "Every task that is named exists.",
  check(draft) {
    const nearest = nearestWordsAmong(draft.tasks.map((task) => task.id));
    const inTasks = draft.tasks.flatMap((task) =>
      task.after
        .filter(({ named }) => isUnknown(draft, named))
        .map(({ named }) => refuse(draft, nearest, named, `task ${task.id}, after`, task.id)),
    );
    const inChains = draft.chains
      .flat()
      .filter((named) => isUnknown(draft, named))
      .map((named) => refuse(draft, nearest, named, "chains", null));
    const inGroups = GROUP_KEYS.flatMap((key) =>
      draft.groups[key]
        .flatMap((group) => group.named)
        .filter((named) => isUnknown(draft, named))
        .map((named) => refuse(draft, nearest, named, key, null)),
    );
    const inTests = draft.tasks.flatMap(({ id, keys: { test } }) => {
      const named = test?.at["return-to"];
      if (named === undefined || !isUnknown(draft, named)) return [];
      return [refuse(draft, nearest, named, `task ${id}, test, return-to`, id)];
    });
    const inBenches = draft.benches.flatMap(({ id, named }) =>
      named
        .filter((each) => isUnknown(draft, each))
        .map((each) => refuse(draft, nearest, each, `bench ${id}, tasks`, null)),
    );
    const inOptions = draft.options.flatMap(({ name: option, offLine, times }) => [
      ...offLine
        .flatMap((block) => (block.kind === "tasks" ? block.named : []))
        .filter((each) => isUnknown(draft, each))
        .map((each) => refuse(draft, nearest, each, `option ${option}, off-line`, null)),
      ...times
        .filter(({ task }) => task === undefined)
        .map(({ named }) => refuse(draft, nearest, named, `option ${option}, times`, null)),
    ]);
    return [...inTasks, ...inChains, ...inGroups, ...inTests, ...inBenches, ...inOptions];
  },
};

function isUnknown(draft: LineDraft, named: TextDraft<string>): boolean {
  return draft.numberOf(named.value) === undefined;
}

function refuse(
  draft: LineDraft,
  nearest: (wanted: string) => string,
  named: TextDraft<string>,
  where: string,
  task: string | null,
) {
  const advice = listAdvice(draft, named.text) ?? nearest(named.text);
  const message = `${where}: no task is called ${quoted(named.text)}${advice}`;
  return found(name, draft, { severity: "error", message, place: named.place, task });
}

/** Several ids in one text: `fit-fork, true-wheel` in place of `[fit-fork, true-wheel]`. */
function listAdvice(draft: LineDraft, text: string): string | null {
  const parts = text.split(/[\s,;/+&]+/u).filter((part) => part !== "");
  const known = parts.length > 1 && parts.every((part) => draft.numberOf(part) !== undefined);
  return known ? `; for several tasks write a list: [${parts.join(", ")}]` : null;
}
