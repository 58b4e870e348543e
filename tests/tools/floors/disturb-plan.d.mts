/** How much a plan is disturbed; the same for the same numbers. */
export interface Disturbance {
  /** From 1. */
  readonly seed: number;
  /** Stations that lose all of their tasks, where order and rules let them. */
  readonly dissolved: number;
  /** Tasks moved beside these. */
  readonly moved: number;
}

export interface NamedStation {
  readonly id: string;
  readonly tasks: readonly string[];
}

/** Throws nothing of its own; a line file that is no YAML is refused by its reader. */
export function disturbPlan(
  lineText: string,
  stations: readonly NamedStation[],
  disturbance: Disturbance,
): { readonly stations: readonly NamedStation[]; readonly moves: number };
