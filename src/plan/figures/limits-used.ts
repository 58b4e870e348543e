import type { Limit, Line } from "../../line/line.js";
import { amountOf, isPerPerson, isPerShift, limitsAt } from "../../line/parts/limits.js";
import { add, divide, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import { floorStationOf } from "../station-numbers.js";

/** What the tasks of a station take of a limit, for the place or the person that it is for. */
export interface LimitUse extends Limit {
  readonly used: Ratio;
}

/** Every limit of which the tasks here take something, in natural order of names; those per shift where demand and calendar are known. */
export function limitsUsed(line: Line, station: Station): LimitUse[] {
  return limitsAt(line, floorStationOf(line, station.id)).flatMap((limit) => {
    const amounts = station.tasks.flatMap((task) => amountOf(line, line.tasks[task]!, limit) ?? []);
    if (amounts.length === 0) return [];
    const shared = (isPerPerson(limit.per) ? station.crew : 1) * (isPerShift(limit.per) ? station.places : 1);
    return [{ ...limit, used: divide(amounts.reduce(add, ZERO), ratio(shared)) }];
  });
}
