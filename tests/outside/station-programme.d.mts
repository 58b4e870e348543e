import type { StationProblem } from "../../src/solve/problem.js";

/**
 * The assignment model of simple line balancing as an LP-format text: x_i_k puts task i in station k, u_k uses station
 * k; as few stations as possible out of `slots`. Null when a task has no station left, so that `slots` are too few.
 * Source of the model: A. Scholl, Balancing and Sequencing of Assembly Lines (1999), after E. H. Bowman (1960).
 */
export function stationProgramme(problem: StationProblem, slots: number): string | null;
