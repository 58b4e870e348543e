import type { Line, Wait } from "../../line/line.js";
import { columnOf } from "../../line/task-load.js";
import { add, multiply, type Ratio, ratio } from "../../time/ratio.js";
import type { Plan, Station } from "../plan.js";
import { emptyBefore, floorStationOf } from "../station-numbers.js";
import { dwellOnce } from "../station-schedule.js";
import { unitsAtPlace } from "../units-at-place.js";

/** Where units of a line that moves together stand at a station, each place for a cycle. */
export interface Stand {
  /** Where units may stand before the station, empty stations included, and there. */
  readonly offset: number;
  readonly places: number;
  /** How far work may run on while the line moves, in microseconds. */
  readonly room: Ratio;
}

/** Parallel to the stations of the plan. */
export function standsOf(line: Line, plan: Plan): Stand[] {
  const empty = emptyBefore(line, plan);
  let stand = 0;
  return plan.stations.map((station, at) => {
    const offset = stand + empty[at]!;
    const places = station.places * unitsAtPlace(line, station);
    stand = offset + places;
    const own = floorStationOf(line, station.id)?.driftRoom ?? line.driftRoom ?? 0;
    return { offset, places, room: ratio(line.flow.pacing === "moving" ? own : 0) };
  });
}

/** How long a unit of a line that moves together is in it, where it moves on every `cycle`: at each place for one, empty stations too. */
export function timeInLine(line: Line, plan: Plan, cycle: Ratio): Ratio {
  const last = standsOf(line, plan).at(-1);
  return multiply(cycle, ratio(last === undefined ? 0 : last.offset + last.places));
}

/** Waits that take time, for which units stay in a line that moves together; none where they wait beside it. */
export const timedWaits = (line: Line): readonly Wait[] =>
  line.flow.pacing === "unpaced" ? [] : line.waits.filter(({ wait }) => wait > 0);

/** Those of them from a station of the plan to a later one, by index. */
export function waitsBetween(
  plan: Plan,
  timed: readonly Wait[],
): { readonly wait: Wait; readonly from: number; readonly to: number }[] {
  const stationWith = new Map(
    plan.stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)),
  );
  return timed.flatMap((wait) => {
    const [from, to] = [stationWith.get(wait.from), stationWith.get(wait.to)];
    return from === undefined || to === undefined || to <= from ? [] : [{ wait, from, to }];
  });
}

/** Whether work of every so many units is done on a unit. */
export type IsDue = (every: number) => boolean;

/** Whether a unit of the model waits there: it does where both tasks are done on it. */
export const hasWait = (line: Line, { from, to }: Wait, model: number, isDue: IsDue): boolean =>
  [from, to].every((task) => {
    const { times, every } = line.tasks[task]!;
    return isDue(every) && times[columnOf(line.tasks[task]!, model)] !== null;
  });

/** In microseconds. */
export const waitOf = (wait: Wait, model: number): Ratio => ratio(wait.byModel?.[model] ?? wait.wait);

/** How long a unit keeps its place at a station busy, handling included, in microseconds. */
export const takesAt = (line: Line, station: Station, model: number, isDue: IsDue): Ratio =>
  add(dwellOnce(line, station, model, isDue), ratio(line.handling));
