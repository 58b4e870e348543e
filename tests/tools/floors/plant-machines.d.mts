import type { PlantedFloor } from "./plant-floor.mjs";

/** How large a planted line with machines is, and which one: the same for the same words. */
export interface MachineSeed {
  /** From 1. */
  readonly seed: number;
  readonly size: number;
  /** Tasks that run a machine, at most one in six. */
  readonly machines: number;
  /** People who may share the work of a unit, 1 when left out. */
  readonly maxCrew?: number;
}

export function plantMachines(given: MachineSeed): PlantedFloor;
