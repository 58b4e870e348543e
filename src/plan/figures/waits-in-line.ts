import type { Line, Wait } from "../../line/line.js";
import { columnOf } from "../../line/task-load.js";
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
import { emptyBefore, floorStationOf, stationNumbers } from "../station-numbers.js";
import { dwellOnce } from "../station-schedule.js";
import { unitsAtPlace } from "../units-at-place.js";

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
  /** How often a unit comes then at most, in microseconds; null where not every unit is held up. */
  readonly cycle: Ratio | null;
}

/** What one kind of units finds along the line; parallel to the stations of the plan, in microseconds. */
interface UnitOnLine {
  readonly stations: readonly {
    /** Where units may stand before the station, and there. */
    readonly offset: number;
    readonly places: number;
    readonly takes: Ratio;
    /** How far work may run on while the line moves. */
    readonly room: Ratio;
  }[];
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
  const timed = line.waits.filter(({ wait }) => wait > 0);
  if (line.flow.pacing === "unpaced" || timed.length === 0 || compare(lineCycle, ZERO) <= 0) return [];
  const numbers = stationNumbers(line, plan);
  const models = [...new Array(Math.max(1, line.models.length)).keys()];
  const kinds = models.flatMap((model) =>
    [false, true].map((isSeldom) => {
      const unit = unitOnLine(line, plan, timed, model, isSeldom);
      return { model, isSeldom, unit, late: lateWaits(unit, lineCycle) };
    }),
  );
  return timed.flatMap((wait) => {
    const held = kinds.filter(({ late }) => late.has(wait));
    if (held.length === 0) return [];
    const always = held.filter(({ isSeldom }) => !isSeldom);
    const { from, to } = held[0]!.late.get(wait)!;
    const has = numbers[to]! - numbers[from]!;
    const of = new Set(held.map(({ model }) => model));
    return {
      wait,
      from,
      to,
      has,
      needs: has + Math.max(...held.map(({ late }) => late.get(wait)!.more)),
      models: of.size === models.length ? null : [...of],
      isSeldom: always.length === 0,
      cycle: models.length === 1 && always.length === 1 ? cycleHeld(always[0]!.unit, lineCycle) : null,
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
  const empty = emptyBefore(line, plan);
  const stationWith = new Map(
    plan.stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)),
  );
  const isDue = (every: number) => isSeldom || every === 1;
  let stand = 0;
  return {
    stations: plan.stations.map((station, at) => {
      const offset = stand + empty[at]!;
      const places = station.places * unitsAtPlace(line, station);
      stand = offset + places;
      const { driftRoom } = floorStationOf(line, station.id) ?? { driftRoom: null };
      return {
        offset,
        places,
        takes: add(dwellOnce(line, station, model, isDue), ratio(line.handling)),
        room: ratio(line.flow.pacing === "moving" ? (driftRoom ?? line.driftRoom ?? 0) : 0),
      };
    }),
    waits: timed.flatMap((wait) => {
      const [from, to] = [stationWith.get(wait.from), stationWith.get(wait.to)];
      const isWorked = [wait.from, wait.to].every((task) => {
        const { times, every } = line.tasks[task]!;
        return isDue(every) && times[columnOf(line.tasks[task]!, model)] !== null;
      });
      if (!isWorked || from === undefined || to === undefined || to <= from) return [];
      return [{ wait, from, to, time: ratio(wait.byModel?.[model] ?? wait.wait) }];
    }),
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

/**
 * How often units that are all alike can come where waits hold the line up: the most of (work and waits of a chain - drift room) / places along it,
 * by Newton's steps from the cycle upwards (Dinkelbach 1967).
 */
function cycleHeld({ stations, waits }: UnitOnLine, cycle: Ratio): Ratio {
  let held = cycle;
  for (;;) {
    /** When the work of each station begins: so many moves of the line after the unit entered, and so much time. */
    const begins: { readonly moves: number; readonly time: Ratio }[] = [];
    const at = ({ moves, time }: { moves: number; time: Ratio }) => add(multiply(ratio(moves), held), time);
    let next = held;
    for (const [to, { offset, places, takes, room }] of stations.entries()) {
      const begin = waits
        .filter((each) => each.to === to)
        .map(({ from, time }) => ({
          moves: begins[from]!.moves,
          time: [stations[from]!.takes, time].reduce(add, begins[from]!.time),
        }))
        .reduce((one, two) => (compare(at(two), at(one)) > 0 ? two : one), { moves: offset, time: ZERO });
      begins.push(begin);
      if (begin.moves === offset) continue;
      const takesInAll = subtract(add(begin.time, takes), room);
      next = larger(next, divide(takesInAll, ratio(offset + places - begin.moves)));
    }
    if (compare(next, held) === 0) return held;
    held = next;
  }
}
