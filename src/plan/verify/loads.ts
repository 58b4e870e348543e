import type { Finding } from "../../findings/finding.js";
import { ONE, type Ratio, ratio } from "../../time/ratio.js";
import { asTime, type Check, fault, showBoth } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import { workOffSides } from "./side-times.js";
import { workOfMix } from "./unit-work.js";
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
 * takes no more than the working time and the limit is not strict. Where its people share the work of a unit, each of them must hold.
 * Where it has sides, each side must hold, and so must the end of the last hands, where units differ the mean of their ends: a side
 * may wait for the other, or for a machine.
 */
export const checkLoads: Check = (view) =>
  [...view.stations, ...view.benches].flatMap((at) => {
    if (!isWholeCount(at.station.places)) return [];
    const loads = wholeTimes(at.tasks.map((task) => view.line.tasks[task]!.load));
    if (view.isSided && at.sides !== null) return checkSideLoads(view, at, loads);
    return at.persons === null ? checkSum(view, at, loads) : checkPersonLoads(view, at, at.persons, loads);
  });

function checkSum(view: PlanView, at: StationView, loads: WholeTimes): Finding[] {
  const excess = findExcess(view, at, loads, asRatio(sumOf(loads), loads));
  return excess === null ? [] : [fault("load", `${at.id} holds ${excess}`, at.id, null, OVERFULL)];
}

function checkPersonLoads(
  view: PlanView,
  at: StationView,
  persons: readonly (readonly number[])[],
  loads: WholeTimes,
): Finding[] {
  const numbers = [...new Set(persons.flat())].sort((one, two) => one - two);
  return numbers.flatMap((person) => {
    const own = loads.amounts.filter((_, index) => persons[index]!.includes(person));
    const excess = findExcess(view, at, loads, asRatio(sumOf({ ...loads, amounts: own }), loads));
    if (excess === null) return [];
    return [fault("load", `person ${person} of ${at.id} holds ${excess}`, at.id, null, OVERFULL)];
  });
}

function checkSideLoads(view: PlanView, at: StationView, loads: WholeTimes): Finding[] {
  const { left, right, finish, last } = workOffSides(at.tasks, at.sides!, loads.amounts, view.line.before);
  const ofSides = (["left", "right"] as const).flatMap((side) => {
    const excess = findExcess(view, at, loads, asRatio(side === "left" ? left : right, loads));
    return excess === null
      ? []
      : [fault("load", `the ${side} of ${at.id} holds ${excess}`, at.id, null, OVERFULL)];
  });
  if (ofSides.length > 0) return ofSides;
  const end = workOfMix(view.line, at)?.handsDone ?? null;
  const excess = end === null ? null : findExcess(view, at, loads, end);
  if (end === null || excess === null) return [];
  const [onLeft, onRight] = showBoth(view.line, asTime(left, loads.parts), asTime(right, loads.parts));
  const held = `the left holds ${onLeft}, the right ${onRight}`;
  if (!isWithin(end.num, end.den, { amount: finish, parts: loads.parts })) {
    const hasMachines = at.tasks.some((task) => view.line.tasks[task]!.machineTime > 0);
    const waits = `${held}, and ${hasMachines ? "hands wait for machines" : "each unit waits for its own longer side"}`;
    return [
      fault(
        "sides",
        `${at.id} ends after ${excess}, on average of the units; ${waits}`,
        at.id,
        null,
        OVERFULL,
      ),
    ];
  }
  const { id } = view.line.tasks[at.tasks[last]!]!;
  const waits = `${held}, and one waits for the other`;
  return [fault("sides", `${id} at ${at.id} ends after ${excess}; ${waits}`, at.id, id, OVERFULL)];
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
