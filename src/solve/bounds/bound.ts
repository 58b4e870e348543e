import type { StationProblem } from "../problem.js";
import { binPackingBound } from "./bin-packing.js";
import type { Bound } from "./certificate.js";
import { chainBound } from "./chain.js";
import { largeTasksBound } from "./large-tasks.js";
import { thirdsBound } from "./thirds.js";
import { workContentBound } from "./work-content.js";

export type * from "./certificate.js";

/** Simplest to explain first. */
const BOUNDS: readonly ((problem: StationProblem) => Bound)[] = [
  workContentBound,
  largeTasksBound,
  thirdsBound,
  binPackingBound,
  chainBound,
];

/** Every bound that holds before any search; the best first, of equals the simplest to explain. */
export function staticBounds(problem: StationProblem): readonly Bound[] {
  return BOUNDS.map((bound) => bound(problem)).sort((one, two) => two.stations - one.stations);
}
