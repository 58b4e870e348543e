import type { Line, Wait } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  ceiling,
  compare,
  divide,
  larger,
  multiply,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import type { Plan } from "../plan.js";
import { stationNumbers } from "../station-numbers.js";
import { carriersOfPlan } from "./carriers.js";
import { heldCycle } from "./held-cycle.js";
import {
  hasWait,
  type Stand,
  standsOf,
  takesAt,
  timedWaits,
  waitOf,
  waitsBetween,
} from "./stands-in-line.js";

/** A wait for which units of a line that moves together come to the later station too soon, so that the line stops for them. */
export interface SlowingWait {
  readonly wait: Wait;
  /** Stations of the plan, by index. */
  readonly from: number;
  readonly to: number;
  /** How many stations the later one stands after the other, empty ones counted, and how many would do. */
  readonly has: number;
  readonly needs: number;
  /** Of which models; null where all units are held up, or the line builds one. */
  readonly models: readonly number[] | null;
  /** Only of units with the work of every so many units. */
  readonly isSeldom: boolean;
  /** How often the line moves on then on average, in microseconds, by all waits; null where no unit that comes is held up. */
  readonly cycle: Ratio | null;
}

/** What one kind of units finds along the line; parallel to the stations of the plan, in microseconds. */
interface UnitOnLine {
  readonly stations: readonly (Stand & { readonly takes: Ratio })[];
  readonly waits: readonly {
    readonly wait: Wait;
    readonly from: number;
    readonly to: number;
    readonly time: Ratio;
  }[];
}

/**
 * Waits that a plan leaves too few stations for, on a line that moves together. A unit stays in the line while it waits: it stands at each place
 * of the stations from the one to the other for a line cycle. It is in time where
 *
 *     work before + wait + work after <= places from the one station to the end of the other x line cycle + drift room there.
 *
 * Work before may itself begin late, after another wait. What neighbours, breakdowns and tests delay comes on top. None on an unpaced line, where
 * units wait in fixtures beside it.
 */
export function slowingWaits(line: Line, { lineCycle }: Pick<Pace, "lineCycle">, plan: Plan): SlowingWait[] {
  const timed = timedWaits(line);
  if (timed.length === 0 || compare(lineCycle, ZERO) <= 0) return [];
  const numbers = stationNumbers(line, plan);
  // Failures and scrap take carriers, so that these come more often than good units.
  const comes = divide(lineCycle, carriersOfPlan(line, plan));
  const models = [...new Array(Math.max(1, line.models.length)).keys()];
  const kinds = models.flatMap((model) =>
    [false, true].map((isSeldom) => {
      const unit = unitOnLine(line, plan, timed, model, isSeldom);
      return { model, isSeldom, unit, late: lateWaits(unit, comes) };
    }),
  );
  if (kinds.every(({ late }) => late.size === 0)) return [];
  const held = heldCycle(line, plan, lineCycle);
  return timed.flatMap((wait) => {
    const slowed = kinds.filter(({ late }) => late.has(wait));
    if (slowed.length === 0) return [];
    const always = slowed.filter(({ isSeldom }) => !isSeldom);
    const { from, to } = slowed[0]!.late.get(wait)!;
    const has = numbers[to]! - numbers[from]!;
    const of = new Set(slowed.map(({ model }) => model));
    return {
      wait,
      from,
      to,
      has,
      needs: has + Math.max(...slowed.map(({ late }) => late.get(wait)!.more)),
      models: of.size === models.length ? null : [...of],
      isSeldom: always.length === 0,
      cycle: compare(held, lineCycle) > 0 ? held : null,
    };
  });
}

function unitOnLine(
  line: Line,
  plan: Plan,
  timed: readonly Wait[],
  model: number,
  isSeldom: boolean,
): UnitOnLine {
  const isDue = (every: number) => isSeldom || every === 1;
  return {
    stations: standsOf(line, plan).map((stand, at) => ({
      ...stand,
      takes: takesAt(line, plan.stations[at]!, model, isDue),
    })),
    waits: waitsBetween(plan, timed).flatMap(({ wait, from, to }) =>
      hasWait(line, wait, model, isDue) ? [{ wait, from, to, time: waitOf(wait, model) }] : [],
    ),
  };
}

interface LateWait {
  readonly from: number;
  readonly to: number;
  /** Stations that are missing between the two. */
  readonly more: number;
}

/** Waits after which work ends too late at a cycle. Stations that one of them is short of are taken to be there for what follows. */
function lateWaits({ stations, waits }: UnitOnLine, cycle: Ratio): Map<Wait, LateWait> {
  const late = new Map<Wait, LateWait>();
  const ends: Ratio[] = [];
  const moved: number[] = [];
  let added = 0;
  for (const [to, { offset, places, takes, room }] of stations.entries()) {
    const arrival = multiply(ratio(offset + added), cycle);
    const last = waits
      .filter((each) => each.to === to)
      .map((each) => ({ ...each, ready: add(ends[each.from]!, each.time) }))
      .reduce<{ wait: Wait; from: number; ready: Ratio } | null>(
        (one, two) => (one === null || compare(two.ready, one.ready) > 0 ? two : one),
        null,
      );
    const delay = last === null ? ZERO : larger(ZERO, subtract(last.ready, arrival));
    const over = subtract(add(delay, takes), add(multiply(ratio(places), cycle), room));
    if (last !== null && compare(delay, ZERO) > 0 && compare(over, ZERO) > 0) {
      const [wanted, most] = [over, delay].map((time) => Number(ceiling(divide(time, cycle)))) as [
        number,
        number,
      ];
      added += Math.min(wanted, most);
      late.set(last.wait, { from: last.from, to, more: added - moved[last.from]! });
    }
    moved.push(added);
    ends.push(add(larger(multiply(ratio(offset + added), cycle), last?.ready ?? ZERO), takes));
  }
  return late;
}
