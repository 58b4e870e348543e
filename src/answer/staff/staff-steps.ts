import { compare, type Ratio, subtract } from "../../time/ratio.js";
import { NOBODY, outcomeOf, type Staffing } from "./staff-balance.js";

/** Demands that all need the same people. */
export interface StaffStep {
  /** People at a time; null where there is no plan. */
  readonly people: number | null;
  readonly from: Ratio;
  readonly to: Ratio;
  /** "proved": these people make every demand of the step, none of it takes fewer, and the next demand takes more. */
  readonly outcome: ReturnType<typeof outcomeOf>;
  /** Crews between the step before and this one: each makes no more than the people of the step before. */
  readonly skipped: readonly number[];
}

/**
 * The steps of a curve, the lowest demand first.
 *
 * @param isCut the looking was ended before its time: nothing is known of demands between the points, nor beyond the last
 */
export function stepsOf(points: readonly Staffing[], grain: Ratio, isCut = false): StaffStep[] {
  const runs: Staffing[][] = [];
  for (const point of points) {
    const run = runs.at(-1);
    if (run !== undefined && isSameStep(run[0]!, point)) run.push(point);
    else runs.push([point]);
  }
  return runs.map((run, at): StaffStep => {
    const [first, last] = [run[0]!, run.at(-1)!];
    const { people } = first;
    const outcome = outcomeOf(first);
    const before = runs[at - 1]?.[0]?.people ?? people;
    return {
      people: people === NOBODY ? null : people,
      from: first.demand.units,
      to: last.demand.units,
      outcome: outcome === "proved" && !endsFor(last, runs[at + 1]?.[0], grain, isCut) ? "found" : outcome,
      skipped: people === NOBODY || isCut ? [] : crewsBetween(before, people),
    };
  });
}

function isSameStep(one: Staffing, two: Staffing): boolean {
  return one.people === two.people && (one.people !== NOBODY || one.least === two.least);
}

/** Whether more people are needed for certain from the very next demand on. */
function endsFor(last: Staffing, next: Staffing | undefined, grain: Ratio, isCut: boolean): boolean {
  if (next === undefined) return !isCut;
  return next.least > last.people && compare(subtract(next.demand.units, last.demand.units), grain) === 0;
}

const crewsBetween = (before: number, after: number): number[] =>
  Array.from({ length: Math.max(0, after - before - 1) }, (_, at) => before + 1 + at);
