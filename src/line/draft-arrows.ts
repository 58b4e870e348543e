import type { Place } from "../findings/finding.js";
import type { DraftTask } from "./draft-task.js";
import type { TextDraft } from "./read/draft.js";

/** Work on `from` comes before work on `to`; `place` is where the file says so. */
export interface Arrow {
  readonly from: number;
  readonly to: number;
  readonly place: Place;
  readonly key: "after" | "chains";
  /** Time in which a unit only waits, 0 where it does not. */
  readonly wait: number;
  /** Stations from one to the other at least; 0 where they may share one. */
  readonly stations: number;
  /** The only model that asks for it, as typed; null: all do. */
  readonly model: string | null;
}

export type NumberOf = (id: string) => number | undefined;

/** Every arrow whose two tasks exist and differ, in the order of the file: first from `after`, then from `chains`. */
export function draftArrows(
  tasks: readonly DraftTask[],
  chains: readonly (readonly TextDraft<string>[])[],
  numberOf: NumberOf,
): Arrow[] {
  const inTasks = tasks.flatMap(({ after }, to) =>
    after.flatMap(({ named, wait, stations, model }) => {
      return arrow(numberOf(named.value), to, {
        place: named.place,
        key: "after",
        wait: wait?.value ?? 0,
        stations: stations?.value ?? (wait?.value ? 1 : 0),
        model: model?.value ?? null,
      });
    }),
  );
  const inChains = chains.flatMap((chain) =>
    chain.slice(1).flatMap((next, at) => {
      const plain = { place: next.place, key: "chains", wait: 0, stations: 0, model: null } as const;
      return arrow(numberOf(chain[at]!.value), numberOf(next.value), plain);
    }),
  );
  return [...inTasks, ...inChains];
}

function arrow(from: number | undefined, to: number | undefined, rest: Omit<Arrow, "from" | "to">): Arrow[] {
  return from === undefined || to === undefined || from === to ? [] : [{ from, to, ...rest }];
}
