import type { OptionDraft } from "../draft-options.js";
import { idKey } from "../ids.js";
import type { LineDraft } from "../line-draft.js";
import { AS_IT_IS } from "../line-option.js";
import { tasksOfBlock } from "../tasks-of-block.js";
import { found, type LineRule } from "./line-rule.js";

const name = "option-keys";

/** Keys of an option that exclude each other, with why. */
const EXCLUDED = [
  ["tables", "off-line", "whole units at tables leave no line to take anything off"],
  ["tables", "stations", "whole units at tables have no stations"],
  ["tables", "max-places", "whole units at tables have no stations"],
  ["stations", "max-places", "a fixed number of stations has one place at each"],
  ["stations", "plan-to", "a fixed number of stations sets its own pace, with no reserve"],
] as const;

export const optionKeys: LineRule = {
  name,
  purpose: "The changes of an option go together, and its name is free.",
  check(draft) {
    return draft.options.flatMap((given) => {
      const { name: option, place, keys } = given;
      const refuse = (problem: string, at = place) =>
        found(name, draft, { severity: "error", message: `option ${option}: ${problem}`, place: at });
      const clashes = EXCLUDED.flatMap(([one, other, why]) =>
        keys[one] === undefined || keys[other] === undefined
          ? []
          : [refuse(`\`${one}\` and \`${other}\` exclude each other: ${why}; take one of them out`)],
      );
      const reserved = idKey(option) === AS_IT_IS;
      const own = `the line as its file has it is called so in comparisons; call the option something else`;
      const most = tasksOnLine(draft, given);
      const tooMany = keys.stations !== undefined && keys.stations.value > most;
      const count = `${keys.stations?.value} stations for ${most === 1 ? "1 task" : `${most} tasks`} on the line; a station needs a task, so at most ${most} are expected`;
      return [
        ...clashes,
        ...(reserved ? [refuse(own)] : []),
        ...(tooMany ? [refuse(count, keys.stations!.place)] : []),
      ];
    });
  },
};

function tasksOnLine(draft: LineDraft, { offLine }: OptionDraft): number {
  const taken = new Set(offLine.flatMap((block) => tasksOfBlock(draft, block).map(({ task }) => task)));
  return draft.tasks.length - taken.size;
}
