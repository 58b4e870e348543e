import { compareNaturally } from "../findings/natural-order.js";
import { idKey } from "./ids.js";
import type { LineKeys, LineRoot } from "./line-file.js";
import { type Arrow, draftArrows } from "./parts/arrows.js";
import { type BenchDraft, draftBenches } from "./parts/benches.js";
import { draftFloor, type FloorDraft } from "./parts/floor.js";
import { draftGroups, type GroupDraft, type GroupKey } from "./parts/groups.js";
import { draftModels, type ModelsDraft } from "./parts/models.js";
import { draftOptions, type OptionDraft } from "./parts/options.js";
import { type DraftTask, draftTask } from "./parts/task.js";
import { draftTests, type TestsDraft } from "./parts/tests.js";
import type { Before } from "./precedence.js";
import type { TextDraft } from "./read/draft.js";

/** A line file as far as it could be read, with what rules ask about it; faulty values are left out. */
export interface LineDraft {
  readonly file: string;
  readonly keys: LineKeys;
  /** The place of each key of the file that is given, faulty or not. */
  readonly places: LineRoot["keys"];
  /** In natural order of ids; the index of a task is its number. */
  readonly tasks: readonly DraftTask[];
  /** The number of the task that the text names, or undefined. */
  numberOf(id: string): number | undefined;
  /** Every arrow whose two tasks exist and differ, in the order of the file: first from `after`, then from `chains`. */
  readonly arrows: readonly Arrow[];
  /** For each task the tasks directly before it, ascending, without doubles; there may be loops. */
  readonly before: Before;
  readonly chains: readonly (readonly TextDraft<string>[])[];
  readonly groups: Readonly<Record<GroupKey, readonly GroupDraft[]>>;
  readonly floor: FloorDraft;
  readonly failures: TestsDraft;
  readonly models: ModelsDraft;
  readonly benches: readonly BenchDraft[];
  readonly options: readonly OptionDraft[];
}

/** Orders what could be read by task and arrow. */
export function draftLine(file: string, root: LineRoot | undefined): LineDraft {
  const keys: LineKeys = root?.at ?? {};
  const entries = [...(keys.tasks?.entries ?? [])].sort((one, two) => compareNaturally(one.id, two.id));
  const tasks = entries.map(draftTask);
  const numbers = new Map(tasks.map((task, number) => [idKey(task.id), number]));
  const numberOf = (id: string) => numbers.get(idKey(id));
  const chains = (keys.chains?.items ?? []).map((chain) => chain.items);
  const places = root?.keys ?? {};
  const arrows = draftArrows(tasks, chains, numberOf);
  const before = beforeOf(tasks, arrows);
  const floor = draftFloor(keys, places.stations !== undefined, tasks);
  const models = draftModels(keys.models, places.models !== undefined);
  return {
    file,
    keys,
    places,
    tasks,
    numberOf,
    arrows,
    before,
    chains,
    groups: {
      together: draftGroups(keys.together, numberOf),
      apart: draftGroups(keys.apart, numberOf),
    },
    floor,
    failures: draftTests(tasks, numberOf, before, models, floor),
    models,
    benches: draftBenches(keys.benches, numberOf),
    options: draftOptions(keys.options, numberOf),
  };
}

/** For each task the tasks directly before it, ascending, without doubles. */
export function beforeOf(tasks: LineDraft["tasks"], arrows: readonly Arrow[]): number[][] {
  const sets = tasks.map(() => new Set<number>());
  for (const { from, to } of arrows) sets[to]!.add(from);
  return sets.map((set) => [...set].sort((one, two) => one - two));
}
