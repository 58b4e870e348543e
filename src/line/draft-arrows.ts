import type { Place } from "../findings/finding.js";
import type { DraftTask } from "./draft-task.js";
import type { TextDraft } from "./schema/draft.js";

/** Work on `from` comes before work on `to`; `place` is where the file says so. */
export interface Arrow {
  readonly from: number;
  readonly to: number;
  readonly place: Place;
  readonly key: "after" | "chains";
}

export type NumberOf = (id: string) => number | undefined;

/** Every arrow whose two tasks exist and differ, in the order of the file: first from `after`, then from `chains`. */
export function draftArrows(
  tasks: readonly DraftTask[],
  chains: readonly (readonly TextDraft<string>[])[],
  numberOf: NumberOf,
): Arrow[] {
  const inTasks = tasks.flatMap(({ after }, to) =>
    after.flatMap((named) => arrow(numberOf(named.value), to, named.place, "after")),
  );
  const inChains = chains.flatMap((chain) =>
    chain
      .slice(1)
      .flatMap((next, at) => arrow(numberOf(chain[at]!.value), numberOf(next.value), next.place, "chains")),
  );
  return [...inTasks, ...inChains];
}

function arrow(from: number | undefined, to: number | undefined, place: Place, key: Arrow["key"]): Arrow[] {
  return from === undefined || to === undefined || from === to ? [] : [{ from, to, place, key }];
}
