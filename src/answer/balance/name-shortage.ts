import type { Line } from "../../line/line.js";
import type { Shortage } from "../../solve/explain/find-shortage.js";

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
