import { ONE } from "../time/ratio.js";
import type { Bench } from "./line.js";
import type { LineDraft } from "./line-draft.js";

/** The benches of a draft without errors, in natural order of names. */
export function buildBenches({ benches }: LineDraft): Bench[] {
  return benches.map(({ id, place, keys, tasks }) => ({
    id,
    tasks: [...new Set(tasks.map(({ task }) => task))].sort((one, two) => one - two),
    shifts: keys.shifts?.value ?? null,
    stations: keys.stations?.value ?? 1,
    share: keys.share?.value ?? ONE,
    pieces: keys.pieces?.value ?? null,
    handOver: keys["hand-over"]?.value ?? 0,
    takeOver: keys["take-over"]?.value ?? 0,
    space: keys.space?.value ?? null,
    stop: keys.stop?.value ?? 0,
    bunch: keys.bunch?.value ?? 1,
    place,
  }));
}
