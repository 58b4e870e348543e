import { idKey } from "../ids.js";
import { AS_IT_IS } from "../line-option.js";
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
    return draft.options.flatMap(({ name: option, place, keys }) => {
      const refuse = (problem: string, at = place) =>
        found(name, draft, { severity: "error", message: `option ${option}: ${problem}`, place: at });
      const clashes = EXCLUDED.flatMap(([one, other, why]) =>
        keys[one] === undefined || keys[other] === undefined
          ? []
          : [refuse(`\`${one}\` and \`${other}\` exclude each other: ${why}; take one of them out`)],
      );
      const reserved = idKey(option) === AS_IT_IS;
      const own = `the line as its file has it is called so in comparisons; call the option something else`;
      return [...clashes, ...(reserved ? [refuse(own)] : [])];
    });
  },
};
