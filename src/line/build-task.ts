import { multiply, ratio } from "../time/ratio.js";
import type { DraftTask } from "./draft-task.js";
import type { Task } from "./line.js";
import type { LineDraft } from "./line-draft.js";
import { valuesOf } from "./line-keys.js";
import { type Spellings, spellAll } from "./spellings.js";

/** A task of a draft without errors. */
export function buildTask(draft: LineDraft, number: number, spell: Spellings): Task {
  const task = draft.tasks[number]!;
  const { id, place, pieceTime, keys } = task;
  const visits = draft.failures.visits!.visits[number]!;
  const quantity = keys.quantity?.value ?? 1;
  const taskTime = pieceTime!.value * quantity;
  const [walking, every] = [keys.walking?.value ?? 0, keys.every?.value ?? 1];
  return {
    id,
    name: keys.name?.value ?? null,
    quantity,
    times: [taskTime],
    walking,
    machineTime: (keys["machine-time"]?.value ?? 0) * quantity,
    every,
    visits,
    load: multiply(visits, ratio(taskTime + walking, every)),
    people: keys.people?.value ?? 1,
    side: keys.side?.value ?? null,
    skills: spellAll(spell.skill, keys.skill),
    equipment: spellAll(spell.equipment, keys.equipment),
    zone: keys.zone === undefined ? null : spell.zone(keys.zone.value),
    ...buildWindow(task, draft),
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
