import type { Finding } from "../../findings/finding.js";
import { compareNaturally } from "../../findings/natural-order.js";
import { ONE, type Ratio, ratio } from "../../time/ratio.js";
import { asTime, type Check, fault, showBoth } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import {
  isWholeCount,
  isWithin,
  type Most,
  shareOfWorkingTime,
  sumOf,
  type WholeTimes,
  wholeTimes,
} from "./whole-times.js";

/**
 * A station holds when its tasks take no more than the station limit, or when one task alone (beside tasks that take no time)
 * takes no more than the working time and the limit is not strict. Where its people share the work of a unit, or work it from its sides,
 * each of them must hold.
 */
export const checkLoads: Check = (view) =>
  [...view.stations, ...view.benches].flatMap((at) => {
    if (!isWholeCount(at.station.places)) return [];
    const loads = wholeTimes(at.tasks.map((task) => view.line.tasks[task]!.load));
    const who = workersOf(view, at);
    return who === null ? checkSum(view, at, loads) : checkEachLoad(view, at, who, loads);
  });

function checkSum(view: PlanView, at: StationView, loads: WholeTimes): Finding[] {
  const excess = findExcess(view, at, loads, asRatio(sumOf(loads), loads));
  return excess === null ? [] : [fault("load", `${at.id} holds ${excess}`, at.id, null, OVERFULL)];
}

/** Who does each task where people have work of their own, by the words for them; null where they work together. */
function workersOf({ isSided }: PlanView, { sides, persons }: StationView): (readonly string[])[] | null {
  if (isSided && sides !== null)
    return sides.map((side) => (side === "both" ? ["the left", "the right"] : [`the ${side}`]));
  return persons === null ? null : persons.map((who) => who.map((person) => `person ${person}`));
}

function checkEachLoad(
  view: PlanView,
  at: StationView,
  who: readonly (readonly string[])[],
  loads: WholeTimes,
): Finding[] {
  return [...new Set(who.flat())].sort(compareNaturally).flatMap((worker) => {
    const own = loads.amounts.filter((_, index) => who[index]!.includes(worker));
    const excess = findExcess(view, at, loads, asRatio(sumOf({ ...loads, amounts: own }), loads));
    return excess === null
      ? []
      : [fault("load", `${worker} of ${at.id} holds ${excess}`, at.id, null, OVERFULL)];
  });
}

const OVERFULL = { kind: "overfull", what: "load" } as const;

const asRatio = (amount: bigint, { parts }: WholeTimes): Ratio => ratio(amount, parts);

/** "70 s, more than the working time of 60 s", or null where the station may take so much. */
function findExcess(
  { line, pace, strictLimit }: PlanView,
  { station: { places }, tasks, floor }: StationView,
  { amounts }: WholeTimes,
  { num: amount, den: parts }: Ratio,
): string | null {
  const most = (share: Ratio) => shareOfWorkingTime(line, pace, { tasks, places }, share);
  const [working, limit] = [most(ONE), most(floor?.planTo ?? pace.planTo)];
  if (isWithin(amount, parts, limit)) return null;
  const isAlone = amounts.filter((each) => each > 0n).length === 1;
  const isWorkable = isWithin(amount, parts, working);
  if (isAlone && isWorkable && !strictLimit) return null;
  const tell = (above: Most, name: string) => {
    const [held, allowed] = showBoth(line, asTime(amount, parts), asTime(above.amount, above.parts));
    return `${held}, more than ${name} of ${allowed}`;
  };
  return isWorkable ? tell(limit, "the station limit") : tell(working, "the working time");
}
