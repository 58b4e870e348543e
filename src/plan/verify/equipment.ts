import type { Finding } from "../../findings/finding.js";
import type { Bench, Line } from "../../line/line.js";
import { availableTime } from "../../time/calendar.js";
import { type Ratio, ratio } from "../../time/ratio.js";
import { type Check, fault, listOf, showBoth, taskFault } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import { workOfMix } from "./unit-work.js";
import { addUp } from "./whole-times.js";

/**
 * Where the floor says what equipment stands where, tasks that need it stand there. Of counted equipment no more is in use than
 * exists: one at each station or bench, and more where units keep it longer than one of them has for a unit.
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
const HOLDS = { kind: "short-of", what: "machines" } as const;

interface Use {
  readonly at: StationView;
  /** How long a unit keeps one of it there. */
  readonly held: Ratio;
  /** How long one has for a unit. */
  readonly cycle: Ratio;
  /** So many keep up, one at the least. */
  readonly units: number;
}

function checkCount(view: PlanView, name: string, count: number): Finding[] {
  const uses = [...view.stations, ...view.benches].flatMap((at) => useAt(view, at, name) ?? []);
  const exist = `${count} ${count === 1 ? "exists" : "exist"}`;
  if (uses.length > count) {
    const where = listOf(uses.map(({ at }) => at.id));
    const message = `${name} is needed at ${where}: ${uses.length} are needed, ${exist}`;
    return [fault("equipment", message, null, null, EQUIPMENT)];
  }
  const needed = uses.reduce((sum, { units }) => sum + units, 0);
  if (needed <= count) return [];
  const [first, ...others] = uses.filter(({ units }) => units > 1);
  const words = listOf([first!, ...others].map((use) => holdWords(view, name, use)));
  const message = `${words}: ${needed} x ${name} are needed, ${exist}`;
  return [fault("equipment-hold", message, first!.at.id, null, HOLDS)];
}

/** "rig holds each unit 245 s at S1 (hook, test, unhook), where one has 200 s for it". */
function holdWords({ line }: PlanView, name: string, { at, held, cycle }: Use): string {
  const [long, due] = showBoth(line, held, cycle);
  const users = at.tasks.filter((task) => line.tasks[task]!.equipment.includes(name));
  const ids = users.map((task) => line.tasks[task]!.id).join(", ");
  return `${name} holds each unit ${long} at ${at.id} (${ids}), where a unit comes every ${due}`;
}

/** Null where the equipment is not used, and where the order of work is one that nobody can keep. */
function useAt(view: PlanView, at: StationView, name: string): Use | null {
  const { line, pace } = view;
  const users = at.tasks.filter((task) => line.tasks[task]!.equipment.includes(name));
  if (users.length === 0) return null;
  const isBench = view.benches.includes(at);
  const cycle = isBench ? cycleAtBench(view, at) : pace.lineCycle;
  const held =
    isBench && isCutUp(view, at) ? timeOn(line, users) : (workOfMix(line, at)?.held.get(name) ?? null);
  if (held === null) return null;
  const [num, den] = [held.num * cycle.den, held.den * cycle.num];
  const units = den > 0n ? Number((num + den - 1n) / den) : 1;
  return { at, held, cycle, units: Math.max(1, units) };
}

/** Whether the entry of a bench stands for several stations of it, of which the plan says nothing more. */
const isCutUp = (view: PlanView, at: StationView): boolean => (statedBench(view, at)?.stations ?? 1) > 1;

/** What tasks take with their machines, one after another: no unit keeps the equipment for less. */
function timeOn(line: Line, users: readonly number[]): Ratio {
  return addUp(
    users.flatMap((number) => {
      const { load, times, visits, machineTime } = line.tasks[number]!;
      const runs = times.flatMap((own, model) => {
        if (own === null) return [];
        const share = times.length === 1 ? { num: 1n, den: 1n } : line.models[model]!.share;
        const often = visits[model]!;
        return [{ num: BigInt(machineTime) * often.num * share.num, den: often.den * share.den }];
      });
      return [load, ...runs];
    }),
  );
}

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
