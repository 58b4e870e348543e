import type { Line, Wait } from "../../line/line.js";
import { visitsOfLine } from "../../line/visits.js";
import {
  add,
  compare,
  divide,
  greatestCommonDivisor,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { modelsInTurn } from "../models/models-in-turn.js";
import type { Plan } from "../plan.js";
import { type Arc, longestMean } from "./longest-mean.js";
import {
  hasWait,
  type Stand,
  standsOf,
  takesAt,
  timedWaits,
  waitOf,
  waitsBetween,
} from "./stands-in-line.js";

/**
 * Units of different work that are looked at, times the stations that waits begin or end at. Where more would be, the rarest work is taken to be on
 * none; the repeat of the models is always looked at.
 */
const MOST_LOOKED_AT = 20_000;

/**
 * How often a good unit comes in the long run, in microseconds, where none does sooner than every `cycle` and waits hold up units that move
 * together. A unit stays in the line while it waits, so that the line stops for it where too few stations stand between. Each unit has the
 * work of its model and of its turn. The cycle itself on an unpaced line, and where every unit is in time. What peaks of the work, breakdowns
 * and failures of tests delay comes on top.
 */
export function heldCycle(line: Line, plan: Plan, cycle: Ratio): Ratio {
  const waits = waitsBetween(plan, timedWaits(line));
  if (waits.length === 0 || compare(cycle, ZERO) <= 0) return cycle;
  const at = [...new Set(waits.flatMap(({ from, to }) => [from, to]))].sort((one, two) => one - two);
  const units = unitsInTurn(line, plan, at);
  const waitsTo = new Map(at.map((station) => [station, waits.filter(({ to }) => to === station)]));
  const found = { waitsTo, at, units, stands: standsOf(line, plan), takes: worksOf(line, plan, units) };
  const often = comesAt(line, waits);
  const least = divide(cycle, often);
  return areAllInTime(line, found, least)
    ? cycle
    : multiply(often, longestMean(units.length, arcsOf(line, found), least));
}

/** Units that come to a wait for one good unit, where tests send some back or scrap them later; the fewest of all waits. */
function comesAt(line: Line, waits: readonly { readonly wait: Wait }[]): Ratio {
  if (line.tasks.every(({ test }) => test === null)) return ONE;
  const { arriving } = visitsOfLine(line);
  return waits
    .flatMap(({ wait }) => [arriving[wait.from]!, arriving[wait.to]!])
    .reduce((one, two) => (compare(two, one) < 0 ? two : one));
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
    if (more * at.length > MOST_LOOKED_AT) break;
    count = more;
    counted.add(every);
  }
  return Array.from({ length: count }, (_, unit) => ({
    model: models[unit % models.length]!,
    isDue: (every) => counted.has(every) && unit % every === every - 1,
  }));
}

interface Found {
  /** By station that they end at. */
  readonly waitsTo: ReadonlyMap<number, readonly { readonly wait: Wait; readonly from: number }[]>;
  /** Stations that waits begin or end at. */
  readonly at: readonly number[];
  readonly units: readonly UnitInTurn[];
  readonly stands: readonly Stand[];
  /** What a station takes of a unit, by index, in microseconds. */
  readonly takes: (station: number, unit: number) => Ratio;
}

/** Whether each unit is done at each station before the line moves on, where it does so on every cycle: nothing then holds it up. */
function areAllInTime(line: Line, { waitsTo, at, units, stands, takes }: Found, cycle: Ratio): boolean {
  const stays = (station: number) => multiply(ratio(stands[station]!.places), cycle);
  const hasPeaks = (station: number) =>
    units.some((_, unit) => compare(takes(station, unit), stays(station)) > 0);
  return units.every(({ model, isDue }, unit) => {
    const ends = new Map<number, Ratio>();
    return at.every((station) => {
      const { offset, room } = stands[station]!;
      const comes = multiply(ratio(offset), cycle);
      const begins = waitsTo
        .get(station)!
        .filter(({ wait }) => hasWait(line, wait, model, isDue))
        .map(({ wait, from }) => add(ends.get(from)!, waitOf(wait, model)))
        .reduce(larger, comes);
      const end = add(begins, takes(station, unit));
      ends.set(station, end);
      if (compare(begins, comes) <= 0) return true;
      // A unit that begins late and ends in the room may hold up what comes behind it, where that takes longer than its place has time for.
      return compare(end, add(add(comes, stays(station)), room)) <= 0 && !hasPeaks(station);
    });
  });
}

/**
 * What comes no sooner than what, between three kinds of moments: the line moves on (numbered first, one a unit that enters then), a station is
 * done with a unit that came in time, and with one that came late: after a wait, or behind one that did.
 */
function arcsOf(line: Line, { waitsTo, at, units, stands, takes }: Found): Arc[] {
  const count = units.length;
  const turn = (unit: number) => ((unit % count) + count) % count;
  const [IN_TIME, LATE] = [0, 1];
  const numbers = new Map(at.map((station, number) => [station, number]));
  const done = (unit: number, station: number, late: number) =>
    count * (1 + 2 * numbers.get(station)! + late) + turn(unit);
  const arcs: Arc[] = [];
  for (const [unit, { model, isDue }] of units.entries()) {
    for (const station of at) {
      const { offset, places, room } = stands[station]!;
      const own = takes(station, unit);
      const late = done(unit, station, LATE);
      arcs.push({ from: turn(unit + offset), to: done(unit, station, IN_TIME), time: own, moves: 0 });
      arcs.push({ from: done(unit - places, station, LATE), to: late, time: own, moves: places });
      arcs.push({ from: late, to: turn(unit + offset + places), time: subtract(ZERO, room), moves: places });
      for (const { wait, from } of waitsTo.get(station)!) {
        if (!hasWait(line, wait, model, isDue)) continue;
        const moves = offset - stands[from]!.offset;
        const time = add(waitOf(wait, model), own);
        for (const before of [IN_TIME, LATE])
          arcs.push({ from: done(unit, from, before), to: late, time, moves });
      }
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
