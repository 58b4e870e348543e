import type { Place } from "../findings/finding.js";
import { idKey } from "./ids.js";
import { compareNaturally } from "./natural-order.js";
import type { Draft, RecordEntry, TextDraft } from "./schema/draft.js";
import type { LineFileSchema } from "./schema/line-file-schema.js";

type Root = Draft<LineFileSchema>;
export type LineKeys = Root["at"];
type TaskValue = NonNullable<NonNullable<LineKeys["tasks"]>["entries"][number]["value"]>;
type TaskKeys = Extract<TaskValue, { kind: "object" }>["at"];

/** A line file as far as it could be read, with what rules ask about it; faulty values are left out. */
export interface LineDraft {
  readonly file: string;
  readonly keys: LineKeys;
  /** The place of each key of the file that is given, faulty or not. */
  readonly places: Root["keys"];
  /** In natural order of ids; the index of a task is its number. */
  readonly tasks: readonly DraftTask[];
  /** The number of the task that the text names, or undefined. */
  numberOf(id: string): number | undefined;
  /** Every arrow whose two tasks exist and differ, in the order of the file: first from `after`, then from `chains`. */
  readonly arrows: readonly Arrow[];
  readonly chains: readonly (readonly TextDraft<string>[])[];
}

export interface DraftTask {
  /** As typed. */
  readonly id: string;
  readonly place: Place;
  readonly pieceTime: TextDraft<number> | undefined;
  readonly after: readonly TextDraft<string>[];
  /** What else is given of the task; empty where only a bare time is. */
  readonly keys: TaskKeys;
}

/** Work on `from` comes before work on `to`; `place` is where the file says so. */
export interface Arrow {
  readonly from: number;
  readonly to: number;
  readonly place: Place;
  readonly key: "after" | "chains";
}

/** Orders what could be read by task and arrow. */
export function draftLine(file: string, root: Root | undefined): LineDraft {
  const keys: LineKeys = root?.at ?? {};
  const entries = [...(keys.tasks?.entries ?? [])].sort((one, two) => compareNaturally(one.id, two.id));
  const tasks = entries.map(draftTask);
  const numbers = new Map(tasks.map((task, number) => [idKey(task.id), number]));
  const numberOf = (id: string) => numbers.get(idKey(id));
  const chains = (keys.chains?.items ?? []).map((chain) => chain.items);
  const arrows = [...arrowsOfTasks(tasks, numberOf), ...arrowsOfChains(chains, numberOf)];
  return { file, keys, places: root?.keys ?? {}, tasks, numberOf, arrows, chains };
}

function draftTask({ id, place, value }: RecordEntry<TaskValue>): DraftTask {
  if (value?.kind !== "object") return { id, place, pieceTime: value, after: [], keys: {} };
  const { after } = value.at;
  const list = after === undefined ? [] : after.kind === "list" ? after.items : [after];
  return { id, place, pieceTime: value.at.time, after: list, keys: value.at };
}

type NumberOf = LineDraft["numberOf"];

function arrowsOfTasks(tasks: readonly DraftTask[], numberOf: NumberOf): Arrow[] {
  return tasks.flatMap(({ after }, to) =>
    after.flatMap((named) => arrow(numberOf(named.value), to, named.place, "after")),
  );
}

function arrowsOfChains(chains: LineDraft["chains"], numberOf: NumberOf): Arrow[] {
  return chains.flatMap((chain) =>
    chain
      .slice(1)
      .flatMap((next, at) => arrow(numberOf(chain[at]!.value), numberOf(next.value), next.place, "chains")),
  );
}

function arrow(from: number | undefined, to: number | undefined, place: Place, key: Arrow["key"]): Arrow[] {
  return from === undefined || to === undefined || from === to ? [] : [{ from, to, place, key }];
}

/** For each task the tasks directly before it, ascending, without doubles. */
export function beforeOf(draft: LineDraft): number[][] {
  const sets = draft.tasks.map(() => new Set<number>());
  for (const { from, to } of draft.arrows) sets[to]!.add(from);
  return sets.map((set) => [...set].sort((one, two) => one - two));
}
