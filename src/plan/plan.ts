import type { Line } from "../line/line.js";

export const STATION_SIDES = ["left", "right", "both"] as const;
/** Where a task is worked on a wide product; "both" takes one person on each side at once. */
export type StationSide = (typeof STATION_SIDES)[number];

/** A station of a plan. `crew` people work together at each of `places` places that take units in turn. */
export interface Station {
  readonly id: string;
  /** Task numbers of the line, in order of work. */
  readonly tasks: readonly number[];
  /** The side of each of `tasks`; null on a line without sides. */
  readonly sides: readonly StationSide[] | null;
  readonly places: number;
  readonly crew: number;
}

/** What the line becomes: its stations in order of flow. */
export interface Plan {
  readonly stations: readonly Station[];
  /** Beside the line, from loose parts; none where left out. */
  readonly benches?: readonly Station[];
}

/** A plan with one place and one person at each station and the default ids S1, S2, ... */
export function planOf(stations: readonly (readonly number[])[]): Plan {
  return {
    stations: stations.map((tasks, at) => ({ id: `S${at + 1}`, tasks, sides: null, places: 1, crew: 1 })),
  };
}

/**
 * The people at one place of a station: the most that any of its tasks needs together, and one for each side in use. A crew works
 * the tasks one after another; who is not needed waits.
 */
export function crewOf(line: Line, { tasks, sides }: Pick<Station, "tasks" | "sides">): number {
  const together = Math.max(1, ...tasks.map((task) => line.tasks[task]!.people));
  const used = new Set((sides ?? []).flatMap((side) => (side === "both" ? ["left", "right"] : [side])));
  return Math.max(together, used.size);
}
