import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import { add, compare, divide, multiply, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import type { Station } from "./plan.js";
import { floorStationOf } from "./station-numbers.js";
import { meanTimeAt } from "./task-starts.js";

/** Sum of the loads at a station, before dividing by places; with sides the mean over all units of the latest end of a task. In microseconds. */
export function stationTime(line: Line, station: Station): Ratio {
  return meanTimeAt(line, station);
}

/** Operators = crew x places. */
export function operators(station: Station): number {
  return station.crew * station.places;
}

/** Working time at a given line cycle = places x line cycle - handling, in microseconds. */
export function workingTime(pace: Pace, station: Station, lineCycle: Ratio = pace.lineCycle): Ratio {
  return subtract(multiply(ratio(station.places), lineCycle), ratio(pace.handling));
}

/** Station limit = working time x plan-to, that of the station where the floor gives one, in microseconds: what may be loaded. */
export function stationLimit(line: Line, pace: Pace, station: Station): Ratio {
  const planTo = floorStationOf(line, station.id)?.planTo ?? pace.planTo;
  return multiply(workingTime(pace, station), planTo);
}

/** (Station time + handling) / places: how often a unit can leave the station, in microseconds. */
export function stationCycle(line: Line, pace: Pace, station: Station): Ratio {
  return divide(add(stationTime(line, station), ratio(pace.handling)), ratio(station.places));
}

/** Person-time worked at a station for one unit = sum of load x people, in microseconds. */
export function personTime(line: Line, station: Station): Ratio {
  return station.tasks
    .map((task) => multiply(line.tasks[task]!.load, ratio(line.tasks[task]!.people)))
    .reduce(add, ZERO);
}

/** Idle per unit = crew x working time - person-time worked, never below 0, in microseconds. */
export function idleTime(line: Line, pace: Pace, station: Station): Ratio {
  const paid = multiply(ratio(station.crew), workingTime(pace, station));
  const idle = subtract(paid, personTime(line, station));
  return compare(idle, ZERO) > 0 ? idle : ZERO;
}

/** What exceeds the working time, per unit, in microseconds; never set off against idle. */
export function overload(line: Line, pace: Pace, station: Station): Ratio {
  const excess = subtract(stationTime(line, station), workingTime(pace, station));
  return compare(excess, ZERO) > 0 ? excess : ZERO;
}

/**
 * Load = station time / station limit; above 1 only where a task longer than the limit stands alone. 0 for a line without work,
 * whose own pace leaves nothing to load.
 */
export function load(line: Line, pace: Pace, station: Station): Ratio {
  const limit = stationLimit(line, pace, station);
  return compare(limit, ZERO) === 0 ? ZERO : divide(stationTime(line, station), limit);
}
