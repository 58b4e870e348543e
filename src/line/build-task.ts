import type { Ratio } from "../time/ratio.js";
import { type DraftTask, everyOf, modelTimes } from "./draft-task.js";
import type { Task } from "./line.js";
import type { LineDraft } from "./line-draft.js";
import { valuesOf } from "./line-keys.js";
import { type Spellings, spellAll } from "./spellings.js";
import { loadOf } from "./task-load.js";

/** A task of a draft without errors; `shares` are those of the models, or the one of a line that builds one. */
export function buildTask(
  draft: LineDraft,
  number: number,
  spell: Spellings,
  shares: readonly Ratio[],
): Task {
  const task = draft.tasks[number]!;
  const { id, place, keys } = task;
  const quantity = keys.quantity?.value ?? 1;
  const times = modelTimes(task, draft.models).map((each) => (each === null ? null : each * quantity));
  const walking = keys.walking?.value ?? 0;
  const visits = draft.failures.visits!.visits[number]!;
  return {
    id,
    name: keys.name?.value ?? null,
    quantity,
    times,
    walking,
    machineTime: (keys["machine-time"]?.value ?? 0) * quantity,
    every: everyOf(task),
    visits,
    load: loadOf({ times, walking, visits }, shares),
    people: keys.people?.value ?? 1,
    side: keys.side?.value ?? null,
    skills: spellAll(spell.skill, keys.skill),
    equipment: spellAll(spell.equipment, keys.equipment),
    zone: keys.zone === undefined ? null : spell.zone(keys.zone.value),
    ...buildWindow(task, draft),
    moveCost: keys["move-cost"]?.value ?? null,
    test: draft.failures.tests[number]!,
    kind: keys.kind?.value ?? null,
    onBase: keys["on-base"]?.value ?? false,
    caution: keys.caution?.value ?? null,
    lift: keys.lift?.value ?? null,
    place,
  };
}

function buildWindow(
  { keys }: DraftTask,
  draft: LineDraft,
): Pick<Task, "stations" | "notBefore" | "notAfter"> {
  const numberOf = (named: { value: string } | undefined) =>
    named === undefined ? null : draft.floor.numberOf(named.value)!;
  const stations = new Set(valuesOf(keys.station).map((each) => numberOf(each)!));
  return {
    stations: keys.station === undefined ? null : [...stations].sort((one, two) => one - two),
    notBefore: numberOf(keys["not-before"]),
    notAfter: numberOf(keys["not-after"]),
  };
}
