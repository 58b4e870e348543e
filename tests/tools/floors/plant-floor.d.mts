/** How large a planted floor is, and which one: the same for the same words. */
export interface FloorSeed {
  /** From 1. */
  readonly seed: number;
  /** Tasks at least, 40 when left out. */
  readonly fewest?: number;
  /** Tasks at most, 60 when left out. */
  readonly most?: number;
}

export interface PlantedFloor {
  readonly name: string;
  /** The text of the line file. */
  readonly line: string;
  /** The text of the plan file of a line file called line.yaml. */
  readonly plan: string;
  /** People on the line in that plan; repairs are beside it. */
  readonly people: number;
}

export function plantFloor(given: FloorSeed): PlantedFloor;
