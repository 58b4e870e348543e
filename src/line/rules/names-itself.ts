import { idKey } from "../ids.js";
import { found, type LineRule } from "./line-rule.js";

const name = "names-itself";

export const namesItself: LineRule = {
  name,
  purpose: "No task comes before itself.",
  check(draft) {
    const inTasks = draft.tasks.flatMap(({ id, after }) =>
      after
        .filter(({ named }) => idKey(named.value) === idKey(id))
        .map(({ named: { place } }) => {
          const message = `task ${id}, after: ${id} names itself; name the tasks before it, or leave it out`;
          return found(name, draft, { severity: "error", message, place, task: id });
        }),
    );
    const inChains = draft.chains.flatMap((chain) =>
      chain
        .filter((named, at) => at > 0 && idKey(named.value) === idKey(chain[at - 1]!.value))
        .map(({ value, place }) => {
          const message = `chains: ${value} stands twice in a row, which would put it before itself; leave one out`;
          return found(name, draft, { severity: "error", message, place, task: value });
        }),
    );
    return [...inTasks, ...inChains];
  },
};
