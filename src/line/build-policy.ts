import { ONE } from "../time/ratio.js";
import type { Line } from "./line.js";
import type { LineKeys } from "./line-keys.js";
import { compareNaturally } from "./natural-order.js";

/** What plans are held against, of a draft without errors. */
export function buildPolicy(keys: LineKeys): Pick<Line, "policy" | "supplies"> {
  const given = keys.policy?.at ?? {};
  const supplies = (keys.supply?.entries ?? []).map(({ id, value }) => ({
    name: id,
    ...value!.value,
    place: value!.place,
  }));
  return {
    policy: {
      maxLoad: given["max-load"]?.value ?? ONE,
      minEfficiency: given["min-efficiency"]?.value ?? null,
      maxStations: given["max-stations"]?.value ?? null,
      maxPeople: given["max-people"]?.value ?? null,
      maxAboveLeast: given["max-above-least"]?.value ?? null,
    },
    supplies: supplies.sort((one, two) => compareNaturally(one.name, two.name)),
  };
}
