import type { Shortage as PlacesWithoutPeople } from "../../benches/people-at-benches.js";
import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { MachineNeed } from "../../plan/figures/machines.js";
import type { Reason } from "../../solve/explain/explain-infeasible.js";
import type { Shortage } from "../../solve/explain/find-shortage.js";
import type { Ratio } from "../../time/ratio.js";

/** Why there is no plan; tasks by their ids, as lines are cut and numbered anew; times in microseconds. */
export type Obstacle =
  /** A thing that the line file asks for, or what times run into. */
  | {
      readonly kind: "rule";
      readonly reason: Reason;
      /** The earliest station, by the times of the work before it, of a task that it holds to sooner ones; null where that is no reason. */
      readonly earliest: string | null;
    }
  | { readonly kind: "shortage"; readonly shortage: NamedShortage }
  | { readonly kind: "machines"; readonly need: MachineNeed }
  /** Not every reason could be tried without: some of the others may not be needed. */
  | { readonly kind: "not-smallest" }
  /** Benches need more of counted equipment than exists. */
  | {
      readonly kind: "short-at-benches";
      readonly equipment: string;
      readonly needed: number;
      readonly count: number;
      /** Where one for each place does not keep up: how long it is busy for a unit, and how often one is due. */
      readonly slow: readonly { readonly busy: Ratio; readonly due: Ratio }[];
    }
  /** Benches keep all of the equipment that tasks on the line need. */
  | {
      readonly kind: "none-left";
      readonly equipment: string;
      readonly tasks: readonly string[];
      readonly count: number;
    }
  /** Benches keep some of it, and what they leave is too little for the line. */
  | {
      readonly kind: "few-left";
      readonly equipment: string;
      readonly left: number;
      readonly count: number;
    }
  | { readonly kind: "too-long"; readonly tasks: readonly string[] }
  | ({ readonly kind: "unstaffed-benches" } & PlacesWithoutPeople)
  /** Whoever stands at the benches, those who are left have too few skills for the line. */
  | { readonly kind: "unstaffed-line" }
  /** Nobody was found for both line and benches; there may be. */
  | { readonly kind: "staffing-open" }
  /** The verifier refuses line and benches together. */
  | { readonly kind: "fault"; readonly fault: Finding };

/** Work that does not fit what it is held to, with tasks, stations and models by their ids; times in microseconds. */
export type NamedShortage = Omit<Shortage, "model" | "tasks" | "held" | "squeezed" | "whole" | "stations"> & {
  readonly [key in "tasks" | "held" | "squeezed" | "whole" | "stations"]: readonly string[];
} & { readonly model: string | null };

export function nameShortage(line: Line, shortage: Shortage): NamedShortage {
  const ids = (tasks: readonly number[]) => tasks.map((task) => line.tasks[task]!.id);
  return {
    ...shortage,
    model: shortage.model === null ? null : line.models[shortage.model]!.id,
    tasks: ids(shortage.tasks),
    held: ids(shortage.held),
    squeezed: ids(shortage.squeezed),
    whole: ids(shortage.whole),
    stations: shortage.stations.map((station) => line.floor[station]!.id),
  };
}
