import type { Finding } from "../../findings/finding.js";
import type { Bench } from "../../line/line.js";
import { availableTime } from "../../time/calendar.js";
import { type Ratio, ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { type Check, fault, listOf, taskFault } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import { isWholeCount } from "./whole-times.js";

/**
 * Where the floor says what equipment stands where, tasks that need it stand there. Of counted equipment no more is in use than
 * exists: one for each place of a station or bench, and more where machines are loaded and run longer than one of them has for a unit.
 */
export const checkEquipment: Check = (view) => [
  ...checkWhereItStands(view),
  ...[...view.line.equipment].flatMap(([name, count]) => checkCount(view, name, count)),
];

const checkWhereItStands: Check = (view) =>
  [...view.stationOf].flatMap(([task, at]) =>
    view.line.tasks[task]!.equipment.flatMap((name) => {
      const having = view.line.floor.filter(({ equipment }) => equipment.includes(name)).map(({ id }) => id);
      if (having.length === 0 || at.floor?.equipment.includes(name)) return [];
      const words = `needs ${name}, which stands at ${listOf(having)}; it stands at ${at.id}`;
      return [taskFault("equipment", view, at, task, words, EQUIPMENT)];
    }),
  );

const EQUIPMENT = { kind: "short-of", what: "equipment" } as const;
const MACHINES = { kind: "short-of", what: "machines" } as const;

interface Use {
  readonly at: StationView;
  readonly places: number;
  readonly machines: Machines;
}

function checkCount(view: PlanView, name: string, count: number): Finding[] {
  const uses = [...view.stations, ...view.benches].flatMap((at): Use[] => {
    const isNeeded = at.tasks.some((task) => view.line.tasks[task]!.equipment.includes(name));
    const { places } = at.station;
    return isNeeded && isWholeCount(places) ? [{ at, places, machines: machinesAt(view, at, name) }] : [];
  });
  const sumOf = (units: (use: Use) => number) => uses.reduce((sum, use) => sum + units(use), 0);
  const exist = `${count} ${count === 1 ? "exists" : "exist"}`;
  const places = sumOf((use) => use.places);
  if (places > count) {
    const where = listOf(uses.map((use) => atPlaces(use.at.id, use.places)));
    const message = `${name} is needed at ${where}: ${places} are needed, ${exist}`;
    return [fault("equipment", message, null, null, EQUIPMENT)];
  }
  const machines = sumOf((use) => Math.max(use.places, use.machines.units));
  if (machines <= count) return [];
  const show = showTimesIn(view.line.unit);
  const words = uses
    .filter((use) => use.machines.units > use.places)
    .map(({ at, machines: { busy, units, cycle } }) => {
      const isOwn = cycle.num * view.pace.lineCycle.den !== view.pace.lineCycle.num * cycle.den;
      const due = isOwn ? `, of which one is due every ${show(cycle)}` : "";
      return `${units} at ${at.id}, where it is loaded and runs ${show(busy)} for a unit${due}`;
    });
  const pace = `at a line cycle of ${show(view.pace.lineCycle)}`;
  const [first] = uses.filter((use) => use.machines.units > use.places);
  return [
    fault(
      "machine",
      `${name}: ${listOf(words)} ${pace}; ${machines} are needed, ${exist}`,
      first!.at.id,
      null,
      MACHINES,
    ),
  ];
}

interface Machines {
  readonly units: number;
  readonly busy: Ratio;
  /** How long one has for a unit. */
  readonly cycle: Ratio;
}

/** Loaded by hand and then running by itself, a machine is busy; of so many, each has a line cycle for a unit, or that of its bench. */
function machinesAt(view: PlanView, at: StationView, name: string): Machines {
  const { line, pace } = view;
  const cycle = view.benches.includes(at) ? cycleAtBench(view, at) : pace.lineCycle;
  let [num, den] = [0n, 1n];
  const plus = (n: bigint, d: bigint) => {
    [num, den] = [num * d + n * den, den * d];
  };
  for (const { machineTime, equipment, load, visits, times } of at.tasks.map((task) => line.tasks[task]!)) {
    if (machineTime === 0 || !equipment.includes(name)) continue;
    plus(load.num, load.den);
    for (const [model, own] of times.entries()) {
      if (own === null) continue;
      const share = times.length === 1 ? { num: 1n, den: 1n } : line.models[model]!.share;
      plus(BigInt(machineTime) * visits[model]!.num * share.num, visits[model]!.den * share.den);
    }
  }
  const { num: has, den: part } = cycle;
  const units = has > 0n ? (num * part + den * has - 1n) / (den * has) : 0n;
  return { units: Number(units), busy: ratio(num, den), cycle };
}

const atPlaces = (id: string, places: number) => (places === 1 ? id : `${id} (${places} places)`);

/**
 * How long a bench has for a unit of the line, in microseconds: line cycle x its own hours of a day / those of the line. A bench that
 * the file states works the shifts it says there, the first ones with the line, further ones of their mean length.
 */
function cycleAtBench(view: PlanView, at: StationView): Ratio {
  const { line, pace } = view;
  const shifts = statedBench(view, at)?.shifts ?? null;
  if (line.calendar === null || shifts === null) return pace.lineCycle;
  const own = line.calendar.shifts.map(availableTime);
  const ofLine = own.reduce((sum, each) => sum + each, 0);
  const first = own.slice(0, shifts).reduce((sum, each) => sum + each, 0);
  const further = Math.max(0, shifts - own.length);
  const { num, den } = pace.lineCycle;
  // First shifts + further x mean, over all: with n shifts (n x first + further x all) / (n x all).
  const [part, whole] = [own.length * first + further * ofLine, own.length * ofLine];
  return ratio(num * BigInt(part), den * BigInt(whole));
}

/** The bench of the file whose tasks are those of this one, or of the benches of the plan that share them. */
function statedBench({ line, benches }: PlanView, { tasks }: StationView): Bench | null {
  const stated = line.benches.find((bench) => tasks.some((task) => bench.tasks.includes(task)));
  if (stated === undefined) return null;
  const there = benches.filter((each) => each.tasks.some((task) => stated.tasks.includes(task)));
  const all = new Set(there.flatMap((each) => each.tasks));
  return all.size === stated.tasks.length && stated.tasks.every((task) => all.has(task)) ? stated : null;
}
