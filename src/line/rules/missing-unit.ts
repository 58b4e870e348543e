import { readNumber } from "../../time/exact-number.js";
import type { OptionDraft } from "../draft-options.js";
import type { DraftTask } from "../draft-task.js";
import type { TextDraft } from "../schema/draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "missing-unit";

export const missingUnit: LineRule = {
  name,
  purpose: "Bare numbers have a unit to be in.",
  check(draft) {
    if (draft.places.unit !== undefined) return [];
    const ofBenches = draft.benches.flatMap(({ keys }) => [keys["hand-over"], keys["take-over"], keys.stop]);
    const ofOptions = draft.options.flatMap(timesOfOption);
    const times = [draft.keys.handling, ...draft.tasks.flatMap(timesOf), ...ofBenches, ...ofOptions];
    const bare = times.filter((each): each is TextDraft<number | null> => each !== undefined && isBare(each));
    const [first] = bare.sort(
      (one, two) => one.place.line - two.place.line || one.place.column - two.place.column,
    );
    if (first === undefined) return [];
    const more = bare.length === 1 ? "" : `, like ${bare.length - 1} more in this file`;
    const message = `${first.text} is a bare number${more}, and nothing says what it is in; give \`unit: s\` (or min, h, cmin, tmu), or write ${first.text} s`;
    return [found(name, draft, { severity: "error", message, place: first.place })];
  },
};

function timesOf({ pieceTimes, after, keys }: DraftTask) {
  return [
    ...pieceTimes.map(({ given }) => given),
    ...[keys.walking, keys["machine-time"], keys.test?.at.repair],
    ...after.map(({ wait }) => wait),
  ];
}

function timesOfOption({ keys, times }: OptionDraft) {
  const walking = keys.tables?.kind === "object" ? keys.tables.at.walking : undefined;
  return [keys.handling, walking, ...times.map(({ given }) => given)];
}

/** 0 is the same in every unit. */
function isBare(given: TextDraft<number | null>): boolean {
  return given.value !== 0 && readNumber(given.text) !== null;
}
