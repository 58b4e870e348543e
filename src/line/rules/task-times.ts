import { readNumber } from "../../time/exact-number.js";
import { ceiling, larger, ONE } from "../../time/ratio.js";
import { longTime } from "../../time/show-values.js";
import type { OptionDraft } from "../parts/options.js";
import { everyOf } from "../parts/piece-times.js";
import type { DraftTask } from "../parts/task.js";
import type { TextDraft } from "../read/draft.js";
import { seldomNumbers } from "../unit-kinds.js";
import { found, type LineRule } from "./line-rule.js";

export const missingUnit: LineRule = {
  name: "missing-unit",
  purpose: "Bare numbers have a unit to be in.",
  check(draft) {
    if (draft.places.unit !== undefined) return [];
    const ofBenches = draft.benches.flatMap(({ keys }) => [keys["hand-over"], keys["take-over"], keys.stop]);
    const ofOptions = draft.options.flatMap(timesOfOption);
    const ofDrift = [draft.keys, ...draft.floor.stations.map(({ keys }) => keys)].map(
      (each) => each["drift-room"],
    );
    const times = [
      draft.keys.handling,
      ...ofDrift,
      ...draft.tasks.flatMap(timesOf),
      ...ofBenches,
      ...ofOptions,
    ];
    const bare = times.filter((each): each is TextDraft<number | null> => each !== undefined && isBare(each));
    const [first] = bare.sort(
      (one, two) => one.place.line - two.place.line || one.place.column - two.place.column,
    );
    if (first === undefined) return [];
    const more = bare.length === 1 ? "" : `, like ${bare.length - 1} more in this file`;
    const message = `${first.text} is a bare number${more}, and nothing says what it is in; give \`unit: s\` (or min, h, cmin, tmu), or write ${first.text} s`;
    return [found("missing-unit", draft, { severity: "error", message, place: first.place })];
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

export const zeroTime: LineRule = {
  name: "zero-time",
  purpose: "Tells which tasks take no time, such as a gate.",
  check(draft) {
    return draft.tasks.filter(takesNoTime).map(({ id, pieceTimes }) => {
      const { place } = pieceTimes.find(({ given }) => given.value === 0)!.given;
      const message = `task ${id} takes no time; it is placed and shown like any other`;
      return found("zero-time", draft, { severity: "note", message, place, task: id });
    });
  },
};

function takesNoTime({ pieceTimes, keys }: DraftTask): boolean {
  const times = pieceTimes.flatMap(({ given }) => given.value ?? []);
  const others = [keys.walking, keys["machine-time"]];
  return times.length > 0 && times.every((each) => each === 0) && others.every((each) => !each?.value);
}

export const taskTimeSum: LineRule = {
  name: "task-time-sum",
  purpose: "All times of the tasks together can be counted exactly.",
  check(draft) {
    const visits = draft.failures.visits?.visits;
    let sum = 0n;
    for (const [number, task] of draft.tasks.entries()) {
      sum += mostTime(task) * ceiling(visits?.[number]?.reduce(larger) ?? ONE) + timeAside(task);
      if (sum <= BigInt(Number.MAX_SAFE_INTEGER)) continue;
      const { id, place } = task;
      const message = `task ${id}: up to here the times of the tasks come to more than ${longTime(Number.MAX_SAFE_INTEGER)}, the most that is counted exactly`;
      return [found("task-time-sum", draft, { severity: "error", message, place, task: id })];
    }
    return [];
  },
};

export const machinePieces: LineRule = {
  name: "machine-pieces",
  purpose: "A task of several pieces has no machine time: each run is a task.",
  check(draft) {
    return draft.tasks.flatMap((task) => {
      const { id, keys } = task;
      const run = keys["machine-time"];
      const pieces = mostPieces(task);
      if (run === undefined || run.value === 0 || pieces === 1) return [];
      const isByModel = keys.quantity?.kind === "record";
      const fewer = isByModel ? `, with "-" as its time on models that have fewer` : "";
      const message = `task ${id}, machine-time: ${isByModel ? "up to " : ""}${pieces} pieces would be ${pieces} runs of the machine with hand work before each, and a task is one run; write a task for each piece, \`after\` the one before it${fewer}; or write the time of all pieces, without \`quantity\`, where one run takes them all`;
      return [found("machine-pieces", draft, { severity: "error", message, place: run.place, task: id })];
    });
  },
};

/** What the model with the most work takes of the hand and of the machine. */
function mostTime(task: DraftTask): bigint {
  const { pieceTimes, keys } = task;
  const longest = pieceTimes.reduce((most, { given }) => Math.max(most, given.value ?? 0), 0);
  const ofPiece = BigInt(longest) + BigInt(keys["machine-time"]?.value ?? 0);
  return ofPiece * BigInt(mostPieces(task)) + BigInt(keys.walking?.value ?? 0);
}

/** Pieces of the model that has the most. */
function mostPieces({ keys: { quantity } }: DraftTask): number {
  const quantities = quantity?.kind === "record" ? quantity.entries.map(({ value }) => value) : [quantity];
  return Math.max(1, ...quantities.map((each) => each?.value ?? 1));
}

/** What passes beside the work: waiting and repairs. */
function timeAside({ after, keys }: DraftTask): bigint {
  const times = [keys.test?.at.repair, ...after.map(({ wait }) => wait)];
  return times.reduce((all, each) => all + BigInt(each?.value ?? 0), 0n);
}

/** Each number doubles the kinds of units that are worked off one by one. */
const MOST_NUMBERS = 3;

export const everyAndSides: LineRule = {
  name: "every-and-sides",
  purpose:
    "Few enough kinds of units come of work on every so many units where a line is worked from its sides.",
  check(draft) {
    if (draft.tasks.every(({ keys: { side } }) => side === undefined)) return [];
    const numbers = seldomNumbers(draft.tasks.map(everyOf));
    if (numbers.length <= MOST_NUMBERS) return [];
    const { id, keys } = draft.tasks.find((task) => everyOf(task) === numbers[MOST_NUMBERS])!;
    const shown = numbers.slice(0, -1).join(", ");
    const message = `task ${id}, every: the tasks of this line are done on every ${shown} and ${numbers.at(-1)} units, too many kinds of units for a line worked from its sides; use up to ${MOST_NUMBERS} different numbers`;
    return [
      found("every-and-sides", draft, { severity: "error", message, place: keys.every!.place, task: id }),
    ];
  },
};
