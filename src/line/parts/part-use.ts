import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { add, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { idKey } from "../ids.js";
import type { Line, PartUse, TaskPart } from "../line.js";
import { type ObjectDraft, type TextDraft, valuesOf } from "../read/draft.js";
import { named, namedOneOrMore, textOrNumber } from "../read/leaf.js";
import { readQuantity } from "../whole-numbers.js";
import { byModelSchema, valuesByModel } from "./by-model.js";
import type { ModelsDraft } from "./models.js";
import { everyOf, modelTimes, type TaskOfModels } from "./piece-times.js";

/** What a task builds into the unit. */
export const partKeysOfTask = () => ({
  parts: z
    .record(
      named("A part."),
      byModelSchema(
        textOrNumber,
        "quantity",
        {
          all: "Pieces of it for one piece of the task.",
          one: 'Its pieces for one piece of the task, or "-" where the model has none of it.',
          whole: "Pieces of it for one piece of the task, or a map with those of every model.",
        },
        readQuantity,
      ),
    )
    .meta({
      description:
        "Parts that the task builds in, such as {HC-12: 2}, for `parts`, `sheets`, `level` and `spacing`. They count on the models that have the task, times its `quantity`.",
    })
    .optional(),
});

/** Which parts are to be used evenly. */
export const levelKeys = () => ({
  level: namedOneOrMore(
    "Parts that the proposed sequence uses evenly, before it looks at drift: one part, a list, or `parts` for all.",
  ).optional(),
});

type PartKeys = ObjectDraft<ReturnType<typeof partKeysOfTask>>["at"];
type LevelKeys = ObjectDraft<ReturnType<typeof levelKeys>>["at"];

/** Tasks with their parts. */
type TasksWithParts = readonly (TaskOfModels & {
  readonly keys: PartKeys & { readonly every?: TextDraft<number> };
})[];

/** Everything that stands for all parts in `level`. */
export const ALL_PARTS = "parts";

/** What a task builds in, each part as it is typed, in natural order. */
function partsOf(task: TasksWithParts[number], models: ModelsDraft): TaskPart[] {
  const quantities = valuesByModel(task.keys.quantity, 1, models);
  const has = modelTimes(task, models).map((time) => time !== null);
  const parts = (task.keys.parts?.entries ?? []).map(({ id, value }) => {
    const pieces = value === undefined ? [] : valuesByModel<number | null>(value, null, models);
    const byModel = has.map((it, model) =>
      it ? BigInt(pieces[model] ?? 0) * BigInt(quantities[model]!) : 0n,
    );
    return { id, byModel };
  });
  return parts.sort((one, two) => compareNaturally(one.id, two.id));
}

/** What units of each model use of each part on average, by natural order of names, each spelt as where it stands first. */
export function partUses(tasks: TasksWithParts, models: ModelsDraft): PartUse[] {
  const uses = new Map<string, { name: string; byModel: Ratio[] }>();
  for (const task of tasks) {
    for (const { id, byModel } of partsOf(task, models)) {
      const part = uses.get(idKey(id)) ?? { name: id, byModel: byModel.map(() => ZERO) };
      uses.set(idKey(id), part);
      part.byModel = part.byModel.map((sum, model) => add(sum, ratio(byModel[model]!, everyOf(task))));
    }
  }
  return [...uses.values()].sort((one, two) => compareNaturally(one.name, two.name));
}

/** The line with the parts of its tasks, of a draft without errors. */
export function withParts(
  line: Line,
  { tasks, models }: { readonly tasks: TasksWithParts; readonly models: ModelsDraft },
): Line {
  const all = tasks.map((task) => partsOf(task, models));
  const spelt = new Map<string, string>();
  for (const { id } of [...line.partList, ...all.flat()]) if (!spelt.has(idKey(id))) spelt.set(idKey(id), id);
  const spell = (part: TaskPart): TaskPart => ({ ...part, id: spelt.get(idKey(part.id))! });
  return { ...line, tasks: line.tasks.map((task, at) => ({ ...task, parts: all[at]!.map(spell) })) };
}

/** The parts to use evenly, of a draft without errors. */
export function buildLevel(
  keys: LevelKeys,
  tasks: TasksWithParts,
  models: ModelsDraft,
): Pick<Line, "levelled"> {
  const wanted = new Set([...valuesOf(keys.level)].map(({ value }) => idKey(value)));
  const isAll = wanted.has(idKey(ALL_PARTS));
  const levelled = wanted.size === 0 ? [] : partUses(tasks, models);
  return { levelled: levelled.filter(({ name }) => isAll || wanted.has(idKey(name))) };
}
