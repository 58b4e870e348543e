import type { Bench } from "../../line/line.js";
import { availableTime } from "../../time/calendar.js";
import { type Ratio, ratio } from "../../time/ratio.js";
import type { PlanView, StationView } from "./plan-view.js";

/**
 * How long a bench has for a unit of the line, in microseconds: line cycle x its own hours of a day / those of the line. A bench that
 * the file states works the shifts it says there, the first ones with the line, further ones of their mean length.
 */
export function cycleAtBench(view: PlanView, at: StationView): Ratio {
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
