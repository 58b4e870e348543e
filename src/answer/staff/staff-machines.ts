import type { Line } from "../../line/line.js";
import { busyMachines } from "../../plan/figures/machines.js";
import { ceiling, divide, multiply, ONE, type Ratio } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";

/** What the number of parallel machines or workers follows from; times in one unit, shares above 0. */
export interface ParallelTerms {
  /** Standard time of one piece at one of them. */
  readonly standard: Ratio;
  /** Pieces to be made in the available time. */
  readonly quantity: Ratio;
  /** Actual performance as a share of the standard. */
  readonly efficiency: Ratio;
  /** Time that one of them is there for. */
  readonly available: Ratio;
  /** Share of that time in which it works. */
  readonly reliability: Ratio;
}

/**
 * Machines or workers side by side: F = S Q / (E H R), exact and rounded up.
 * Source: J. A. Tompkins, J. A. White, Y. A. Bozer, J. M. A. Tanchoco, Facilities Planning, machine fractions.
 *
 * @throws RangeError where efficiency, time or reliability is 0
 */
export function parallelUnits(terms: ParallelTerms): { readonly exact: Ratio; readonly whole: number } {
  const { standard, quantity, efficiency, available, reliability } = terms;
  const exact = divide(multiply(standard, quantity), multiply(efficiency, multiply(available, reliability)));
  return { exact, whole: Number(ceiling(exact)) };
}

/** How many of an equipment the demand needs, were all its tasks at one station. */
export interface MachinesNeeded {
  readonly equipment: string;
  readonly exact: Ratio;
  readonly units: number;
  /** How many exist. */
  readonly counted: number;
}

/** Every equipment that is counted and runs by itself: its time loading and running per good unit, at the units to be started. */
export function machinesNeeded(line: Line, takt: TaktSum): MachinesNeeded[] {
  const whole = { tasks: [...line.tasks.keys()] };
  return busyMachines(line, takt.pace, whole).flatMap(({ name, busy }) => {
    const counted = name === null ? undefined : line.equipment.get(name);
    if (name === null || counted === undefined) return [];
    const { exact, whole: units } = parallelUnits({
      standard: busy,
      quantity: takt.unitsToStart,
      efficiency: ONE,
      available: takt.availablePerPeriod,
      reliability: takt.terms.uptime,
    });
    return [{ equipment: name, exact, units, counted }];
  });
}
