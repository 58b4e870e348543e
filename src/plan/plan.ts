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
  /**
   * Who of the crew does each of `tasks`, numbered from 1, where the people of a place share the work of a unit; null where they work
   * together.
   */
  readonly persons: readonly (readonly number[])[] | null;
  readonly places: number;
  readonly crew: number;
}

/** What the line becomes: its stations in order of flow. */
export interface Plan {
  readonly stations: readonly Station[];
  /** Beside the line, from loose parts; none where left out. */
  readonly benches?: readonly Station[];
}

/** What a station says where one person at one place does its tasks. */
export const ONE_PERSON = { sides: null, persons: null, places: 1, crew: 1 } as const;

/** A plan with one place and one person at each station and the default ids S1, S2, ... */
export function planOf(stations: readonly (readonly number[])[]): Plan {
  return {
    stations: stations.map((tasks, at) => ({ ...ONE_PERSON, id: `S${at + 1}`, tasks })),
  };
}

/**
 * The people at one place of a station: the most that any of its tasks needs together, one for each side in use, and as many as share
 * its work. A crew that shares nothing works the tasks one after another; who is not needed waits.
 */
export function crewOf(
  line: Line,
  { tasks, sides, persons }: Pick<Station, "tasks" | "sides" | "persons">,
): number {
  const together = Math.max(1, ...tasks.map((task) => line.tasks[task]!.people));
  const used = new Set((sides ?? []).flatMap((side) => (side === "both" ? ["left", "right"] : [side])));
  return Math.max(together, used.size, ...(persons ?? []).flat());
}
