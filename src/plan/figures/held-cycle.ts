import type { Line, Wait } from "../../line/line.js";
import { add, compare, greatestCommonDivisor, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import { modelsInTurn } from "../models/models-in-turn.js";
import type { Plan } from "../plan.js";
import { type Arc, longestMean } from "./longest-mean.js";
import { hasWait, standsOf, takesAt, timedWaits, waitOf, waitsBetween } from "./stands-in-line.js";

/** Units of different work that are looked at; where more would be, the rarest work is taken to be on none. */
const MOST_UNITS = 2000;

/**
 * How often a line moves on in the long run, in microseconds, where it moves no sooner than every `cycle` and waits hold up units that move
 * together. A unit stays in the line while it waits, so that the line stops for it where too few stations stand between. Each unit has the
 * work of its model and of its turn. The cycle itself on an unpaced line, and where every unit is in time. What peaks of the work, breakdowns
 * and failures of tests delay comes on top.
 */
export function heldCycle(line: Line, plan: Plan, cycle: Ratio): Ratio {
  const waits = waitsBetween(plan, timedWaits(line));
  if (waits.length === 0 || compare(cycle, ZERO) <= 0) return cycle;
  const at = [...new Set(waits.flatMap(({ from, to }) => [from, to]))].sort((one, two) => one - two);
  const units = unitsInTurn(line, plan, at);
  return longestMean(units.length, arcsOf(line, plan, { waits, at, units }), cycle);
}

interface UnitInTurn {
  readonly model: number;
  readonly isDue: (every: number) => boolean;
}

/** Units until the same work comes again: a repeat of the models, as often as work of every so many units takes to come round. */
function unitsInTurn(line: Line, plan: Plan, at: readonly number[]): UnitInTurn[] {
  const models = modelsInTurn(line, plan)?.models ?? [0];
  const everies = at.flatMap((station) =>
    plan.stations[station]!.tasks.map((task) => line.tasks[task]!.every),
  );
  let count = models.length;
  const counted = new Set<number>([1]);
  for (const every of [...new Set(everies)].sort((one, two) => one - two)) {
    const more = (count * every) / Number(greatestCommonDivisor(BigInt(count), BigInt(every)));
    if (more > MOST_UNITS) break;
    count = more;
    counted.add(every);
  }
  return Array.from({ length: count }, (_, unit) => ({
    model: models[unit % models.length]!,
    isDue: (every) => counted.has(every) && unit % every === every - 1,
  }));
}

interface Found {
  readonly waits: readonly { readonly wait: Wait; readonly from: number; readonly to: number }[];
  /** Stations that waits begin or end at. */
  readonly at: readonly number[];
  readonly units: readonly UnitInTurn[];
}

/**
 * What comes no sooner than what, between three kinds of moments: the line moves on (numbered first, one a unit that enters then), a station is
 * done with a unit that came in time, and with one that came late: after a wait, or behind one that did.
 */
function arcsOf(line: Line, plan: Plan, { waits, at, units }: Found): Arc[] {
  const stands = standsOf(line, plan);
  const count = units.length;
  const turn = (unit: number) => ((unit % count) + count) % count;
  const [IN_TIME, LATE] = [0, 1];
  const done = (unit: number, station: number, late: number) =>
    count * (1 + 2 * at.indexOf(station) + late) + turn(unit);
  const takes = worksOf(line, plan, units);
  const arcs: Arc[] = [];
  for (const [unit, { model, isDue }] of units.entries()) {
    for (const station of at) {
      const { offset, places, room } = stands[station]!;
      const own = takes(station, unit);
      const late = done(unit, station, LATE);
      arcs.push({ from: turn(unit + offset), to: done(unit, station, IN_TIME), time: own, moves: 0 });
      arcs.push({ from: done(unit - places, station, LATE), to: late, time: own, moves: places });
      arcs.push({ from: late, to: turn(unit + offset + places), time: subtract(ZERO, room), moves: places });
    }
    for (const { wait, from, to } of waits) {
      if (!hasWait(line, wait, model, isDue)) continue;
      const moves = stands[to]!.offset - stands[from]!.offset;
      const time = add(waitOf(wait, model), takes(to, unit));
      for (const before of [IN_TIME, LATE])
        arcs.push({ from: done(unit, from, before), to: done(unit, to, LATE), time, moves });
    }
  }
  return arcs;
}

/** What a station takes of a unit, worked out once for units of the same work. */
function worksOf(line: Line, plan: Plan, units: readonly UnitInTurn[]) {
  const known = new Map<string, Ratio>();
  return (at: number, unit: number): Ratio => {
    const { model, isDue } = units[unit]!;
    const station = plan.stations[at]!;
    const due = station.tasks.map((task) => (isDue(line.tasks[task]!.every) ? 1 : 0)).join("");
    const key = `${at} ${model} ${due}`;
    const found = known.get(key) ?? takesAt(line, station, model, isDue);
    known.set(key, found);
    return found;
  };
}
