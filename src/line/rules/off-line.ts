import type { Finding, Place } from "../../findings/finding.js";
import { nearestWords } from "../../findings/nearest.js";
import { mostShifts } from "../../time/calendar.js";
import { quoted } from "../../time/quoted.js";
import { longTime } from "../../time/show-values.js";
import { idKey } from "../ids.js";
import { AS_IT_IS } from "../line.js";
import type { LineDraft } from "../line-draft.js";
import { draftCalendar } from "../parts/calendar.js";
import type { OffLineDraft, OptionDraft } from "../parts/options.js";
import { isLoopFree } from "../precedence.js";
import type { TextDraft } from "../read/draft.js";
import { reducedOrder } from "../reduced-order.js";
import { found, type LineRule } from "./line-rule.js";

export const benchTasks: LineRule = {
  name: "bench-tasks",
  purpose: "A task is built at one bench, and a bench of several stations has a task for each.",
  check(draft) {
    return [...refuseSecondBench(draft), ...refuseMoreStations(draft)];
  },
};

function refuseSecondBench(draft: LineDraft) {
  const first = new Map<number, { readonly bench: string; readonly named: TextDraft<string> }>();
  return draft.benches.flatMap(({ id, tasks }) =>
    tasks.flatMap(({ task, named }) => {
      const earlier = first.get(task);
      if (earlier === undefined) {
        first.set(task, { bench: id, named });
        return [];
      }
      const there = `bench ${earlier.bench} (line ${earlier.named.place.line}, column ${earlier.named.place.column})`;
      const message = `bench ${id}: ${draft.tasks[task]!.id} is built at ${there} already; a task is built at one bench, once`;
      return [
        found("bench-tasks", draft, {
          severity: "error",
          message,
          place: named.place,
          task: draft.tasks[task]!.id,
        }),
      ];
    }),
  );
}

function refuseMoreStations(draft: LineDraft) {
  return draft.benches.flatMap(({ id, keys, tasks, named }) => {
    const { stations } = keys;
    const count = new Set(tasks.map(({ task }) => task)).size;
    if (stations === undefined || count < named.length || count === 0 || stations.value <= count) return [];
    const message = `bench ${id}: ${stations.value} stations for ${count === 1 ? "1 task" : `${count} tasks`}; a station needs a task, so at most ${count} are expected`;
    return [found("bench-tasks", draft, { severity: "error", message, place: stations.place })];
  });
}

export const benchShifts: LineRule = {
  name: "bench-shifts",
  purpose: "The shifts that a bench works fit into a day.",
  check(draft) {
    const calendar = draftCalendar(draft.keys);
    if (calendar === null || calendar.shifts.length === 0) return [];
    const { shifts } = calendar;
    const most = mostShifts(calendar);
    const day = shifts.reduce((sum, shift) => sum + shift.gross + shift.overtime, 0);
    return draft.benches.flatMap(({ id, keys }) => {
      const asked = keys.shifts;
      if (asked === undefined || asked.value <= most) return [];
      const long = longTime(Math.round((day / shifts.length) * asked.value));
      const message = `bench ${id}: ${asked.value} shifts like those of the line are ${long}; a day has 24 h, so at most ${most} are expected`;
      return [found("bench-shifts", draft, { severity: "error", message, place: asked.place })];
    });
  },
};

export const offLineBlock: LineRule = {
  name: "off-line-block",
  purpose: "What an option takes off the line can be built away from it.",
  check(draft) {
    const { before } = draft;
    return draft.options.flatMap((option) => [
      ...refuseDoubles(draft, option),
      ...option.offLine.flatMap((block) => refuseBlock(draft, option, block, before)),
    ]);
  },
};

type Refuse = (problem: string, place: Place, task?: number) => Finding[];

function refuser(draft: LineDraft, option: OptionDraft): Refuse {
  return (problem, place, task) => {
    const message = `option ${option.name}, off-line: ${problem}`;
    const at = task === undefined ? null : draft.tasks[task]!.id;
    return [found("off-line-block", draft, { severity: "error", message, place, task: at })];
  };
}

function refuseDoubles(draft: LineDraft, option: OptionDraft): Finding[] {
  const refuse = refuser(draft, option);
  const seen = new Set<number>();
  return option.offLine
    .flatMap((block) => tasksOfBlock(draft, block))
    .flatMap(({ task, place }) => {
      if (!seen.has(task)) {
        seen.add(task);
        return [];
      }
      return refuse(`${draft.tasks[task]!.id} is taken off the line twice; once is expected`, place, task);
    });
}

function refuseBlock(
  draft: LineDraft,
  option: OptionDraft,
  block: OffLineDraft,
  before: readonly (readonly number[])[],
): Finding[] {
  const refuse = refuser(draft, option);
  if (block.kind === "bench") {
    const names = draft.benches.map(({ id }) => id);
    const isKnown = names.some((id) => idKey(id) === idKey(block.named.value));
    if (!isKnown) return refuse(unknownBench(draft, block.named.value, names), block.place);
  } else if (block.count === 0) {
    return refuse("nothing is listed here; list the tasks of the block, or leave it out", block.place);
  }
  const named = tasksOfBlock(draft, block);
  const inside = new Set(named.map(({ task }) => task));
  const idOf = (task: number) => draft.tasks[task]!.id;
  const staying = named.flatMap(({ task, place }) => {
    if (draft.tasks[task]!.keys["on-base"]?.value === true)
      return refuse(
        `${idOf(task)} works on the base unit (on-base: true), which stays on the line`,
        place,
        task,
      );
    const earlier = before[task]!.find((each) => !inside.has(each));
    if (earlier === undefined) return [];
    const arrow = `${idOf(earlier)} -> ${idOf(task)}`;
    return refuse(`${idOf(task)} needs ${idOf(earlier)}, which is not in the block (${arrow})`, place, task);
  });
  const isWhole = block.kind === "bench" || block.count === block.tasks.length;
  return staying.length > 0 || !isWhole || inside.size === 0
    ? staying
    : refuseJoins(draft, block, inside, before, refuse);
}

/** A block of an option joins the line at one task, as far as arrows are not implied; the parts of a bench may join at several. */
function refuseJoins(
  draft: LineDraft,
  block: OffLineDraft,
  inside: ReadonlySet<number>,
  before: readonly (readonly number[])[],
  refuse: Refuse,
): Finding[] {
  const joins = (isLoopFree(before) ? reducedOrder(before) : before).flatMap((earlier, task) => {
    const from = inside.has(task) ? undefined : earlier.find((each) => inside.has(each));
    return from === undefined ? [] : [{ from, task }];
  });
  const idOf = (task: number) => draft.tasks[task]!.id;
  if (joins.length === 0)
    return refuse("no task on the line waits for this block, so it joins nowhere", block.place);
  const ends = [...inside].filter((task) => !before.some((earlier) => earlier.includes(task)));
  if (ends.length > 0) {
    const words = ends.length === 1 ? "it joins" : "they join";
    return refuse(
      `nothing waits for ${ends.map(idOf).join(", ")}: no precedence says where ${words}`,
      block.place,
    );
  }
  if (joins.length === 1 || block.kind === "bench") return [];
  const arrows = joins.map(({ from, task }) => `${idOf(from)} -> ${idOf(task)}`).join(", ");
  const advice = "a block joins the line at one task; write one list for each, or name a bench of `benches`";
  return refuse(`${joins.length} tasks on the line wait for this block (${arrows}); ${advice}`, block.place);
}

function unknownBench(draft: LineDraft, wanted: string, benches: readonly string[]): string {
  const advice =
    draft.numberOf(wanted) === undefined
      ? nearestWords(wanted, benches)
      : `; for the task of that name write a list: [${wanted}]`;
  return `no bench of \`benches\` is called ${quoted(wanted)}${advice}`;
}

/** Keys of an option that exclude each other, with why. */
const EXCLUDED = [
  ["tables", "off-line", "whole units at tables leave no line to take anything off"],
  ["tables", "stations", "whole units at tables have no stations"],
  ["tables", "max-places", "whole units at tables have no stations"],
  ["stations", "max-places", "a fixed number of stations has one place at each"],
  ["stations", "plan-to", "a fixed number of stations sets its own pace, with no reserve"],
] as const;

export const optionKeys: LineRule = {
  name: "option-keys",
  purpose: "The changes of an option go together, and its name is free.",
  check(draft) {
    return draft.options.flatMap((given) => {
      const { name: option, place, keys } = given;
      const refuse = (problem: string, at = place) =>
        found("option-keys", draft, {
          severity: "error",
          message: `option ${option}: ${problem}`,
          place: at,
        });
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
        ...otherMoney(draft, given).map((problem) => refuse(problem, keys.once!.place)),
        ...(tooMany ? [refuse(count, keys.stations!.place)] : []),
      ];
    });
  },
};

/** A one-off cost is paid back by what `rates` price, so both are in one currency. */
function otherMoney({ keys: { rates } }: LineDraft, { keys: { once } }: OptionDraft): string[] {
  const [own, currency] = [once?.value.currency ?? null, rates?.at.currency?.value ?? null];
  if (rates === undefined || own === null || own === currency) return [];
  return currency === null
    ? [`\`once\` is in ${own}, and \`rates\` names no currency; write \`currency: ${own}\` there`]
    : [`\`once\` is in ${own} and \`rates\` in ${currency}; write both in one currency`];
}

function tasksOnLine(draft: LineDraft, { offLine }: OptionDraft): number {
  const taken = new Set(offLine.flatMap((block) => tasksOfBlock(draft, block).map(({ task }) => task)));
  return draft.tasks.length - taken.size;
}

/** The tasks of a block that exist, each with where it is named; those of a bench are named where the bench is. */
function tasksOfBlock(
  draft: LineDraft,
  block: OffLineDraft,
): readonly { readonly task: number; readonly place: Place }[] {
  if (block.kind === "tasks") return block.tasks;
  const bench = draft.benches.find(({ id }) => idKey(id) === idKey(block.named.value));
  return (bench?.tasks ?? []).map(({ task }) => ({ task, place: block.place }));
}
