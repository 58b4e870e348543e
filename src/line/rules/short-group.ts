import { GROUP_KEYS } from "../draft-groups.js";
import { idKey } from "../ids.js";
import { found, type LineRule } from "./line-rule.js";

const name = "short-group";

export const shortGroup: LineRule = {
  name,
  purpose: "What is kept together or apart is two different tasks or more.",
  check(draft) {
    return GROUP_KEYS.flatMap((key) =>
      draft.groups[key].flatMap(({ named, count, place }) => {
        const different = new Set(named.map((each) => idKey(each.value))).size;
        if (count > named.length || different > 1) return [];
        const has = count === 0 ? "no task" : count === 1 ? "one task" : `${named[0]!.value} only`;
        const message = `${key}: this list names ${has}; two different tasks or more are expected`;
        return [found(name, draft, { severity: "error", message, place })];
      }),
    );
  },
};
