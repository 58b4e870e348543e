import type { Finding } from "../../findings/finding.js";
import { ONE } from "../../time/ratio.js";
import { asTime, type Check, fault, showBoth } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import { workOfMix } from "./unit-work.js";
import { isWholeCount, isWithin, shareOfWorkingTime } from "./whole-times.js";

/**
 * A unit stands at its place no longer than the places of the station, and the units that each has room for, have time; of an order in
 * which pieces of equipment would wait for each other nobody knows how long it takes.
 */
export const checkDwell: Check = (view) =>
  view.stations.flatMap((at) => {
    if (view.isSided && at.sides === null) return [];
    const isLonger = at.persons !== null || at.sides !== null || runsMachines(view, at);
    const isOnEquipment = at.tasks.some((task) => view.line.tasks[task]!.equipment.length > 0);
    // Where hands alone are at work, a unit stands as long as its station is loaded.
    return isLonger || isOnEquipment ? checkDwellAt(view, at, isLonger) : [];
  });

function checkDwellAt(view: PlanView, at: StationView, isLonger: boolean): Finding[] {
  const { line, pace } = view;
  const work = workOfMix(line, at);
  // Where all are at one task at a time and no machine runs, equipment is free whenever they are.
  if (work === null) return isLonger ? [tellCircle(line, at)] : [];
  const { places } = at.station;
  const holds = at.floor?.holds ?? line.holds;
  if (!isLonger || !isWholeCount(places)) return [];
  const { num, den } = work.allDone;
  const working = shareOfWorkingTime(line, pace, { tasks: at.tasks, places }, ONE);
  const most = { ...working, amount: working.amount * BigInt(holds) };
  if (isWithin(num, den, most)) return [];
  const [stands, allowed] = showBoth(line, asTime(num, den), asTime(most.amount, most.parts));
  const limit =
    holds === 1
      ? `the working time of ${allowed}`
      : `${allowed}, the working time of the ${holds} units that each place has room for`;
  const words = `a unit stands ${stands} at ${at.id}, ${runsMachines(view, at) ? "with what machines run, " : ""}more than ${limit}`;
  return [fault("dwell", words, at.id, null, { kind: "overfull", what: "dwell" })];
}

const runsMachines = ({ line }: PlanView, { tasks }: StationView): boolean =>
  tasks.some((task) => line.tasks[task]!.machineTime > 0);

/** Which equipment is asked for again before a unit is done with it. */
function tellCircle({ tasks }: PlanView["line"], at: StationView): Finding {
  const names = new Set(at.tasks.flatMap((task) => tasks[task]!.equipment));
  const users = [...names].map((name) => at.tasks.filter((task) => tasks[task]!.equipment.includes(name)));
  const lists = users
    .filter((own) => own.length > 2)
    .map((own) => own.map((task) => tasks[task]!.id).join(", "));
  const words = `the order of work at ${at.id} takes up ${[...names].join(" and ")} again before the work begun on it is done (${lists.join("; ")}); do what follows each other on it in a row`;
  return fault("order", words, at.id, null);
}
