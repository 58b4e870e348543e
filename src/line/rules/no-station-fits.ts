import type { LineDraft } from "../line-draft.js";
import { hasStation, needsOf } from "../station-needs.js";
import { found, type LineRule } from "./line-rule.js";

const name = "no-station-fits";

export const noStationFits: LineRule = {
  name,
  purpose: "Every task has a station that is all the task asks for.",
  check(draft) {
    if (!draft.floor.complete) return [];
    const needsOfTask = needsOf(draft);
    return draft.tasks.flatMap(({ id, place, keys }) => {
      const needs = needsOfTask(keys);
      // What no station at all is has a finding of its own: a name that is not known, or stations in the wrong order.
      const alone = needs.some((each) => !hasStation(draft, [each]));
      if (alone || hasStation(draft, needs) || isReversed(draft, keys)) return [];
      const message = `task ${id} asks for a station ${needs.map((each) => each.words).join(", ")}, and there is none; take one of these out, or change the stations`;
      return [found(name, draft, { severity: "error", message, place, task: id })];
    });
  },
};

function isReversed({ floor }: LineDraft, keys: Parameters<ReturnType<typeof needsOf>>[0]): boolean {
  const [first, last] = [keys["not-before"], keys["not-after"]];
  if (first === undefined || last === undefined) return false;
  return (floor.numberOf(first.value) ?? 0) > (floor.numberOf(last.value) ?? Number.POSITIVE_INFINITY);
}
