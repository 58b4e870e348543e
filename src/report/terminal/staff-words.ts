import type { Demand } from "../../time/demand.js";
import { ceiling, divide, floor, multiply, type Ratio, ratio } from "../../time/ratio.js";
import { decimal, longTime } from "../../time/show-values.js";
import { MICROS_IN } from "../../time/units.js";

/** A time that must be worked, up to the next whole minute: "5 h", "8 h 4 min". */
export function upToMinutes(needed: Ratio): string {
  const minute = ratio(MICROS_IN.min);
  return longTime(multiply(ratio(ceiling(divide(needed, minute))), minute));
}

/** A time that is saved, down to the last whole minute. */
export function downToMinutes(saved: Ratio): string {
  const minute = ratio(MICROS_IN.min);
  return longTime(multiply(ratio(floor(divide(saved, minute))), minute));
}

export const demandWords = ({ units, period }: Demand): string => `${decimal(units, 6)} per ${period}`;
