import type { Instance } from "../../../src/solve/search/instance.js";
import { Swaps } from "../../../src/solve/search/swaps.js";

/** All swaps of an instance, looked at without a pause. */
export function allSwaps(instance: Instance): Swaps {
  const stretches = Swaps.ofAll(instance);
  for (let stretch = stretches.next(); ; stretch = stretches.next()) if (stretch.done) return stretch.value;
}
