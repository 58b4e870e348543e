import type { Line } from "../line/line.js";
import { handlingAt } from "../line/passes.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, ONE, type Ratio, ratio } from "../time/ratio.js";
import { busyMachines } from "./figures/machines.js";
import { personTime } from "./figures/person-time.js";
import type { Plan, Station } from "./plan.js";
import { floorStationOf } from "./station-numbers.js";
import { meanTimeAt } from "./station-schedule.js";

/** Machines of one kind at a post that are loaded and then run by themselves; of one that is not counted there are enough. */
export interface PostMachine {
  readonly name: string;
  /** How long one unit that comes here keeps one of them, loading and running, in microseconds. */
  readonly busy: Ratio;
  /** So many take units in turn. */
  readonly units: number;
}

/**
 * Where people work for the line: at a station of it, at a bench beside it, or at tables where each builds whole units. Every figure
 * is one function over posts (`figures/`). Times are in microseconds for one unit that comes here.
 */
export interface Post {
  readonly id: string;
  readonly kind: "station" | "bench" | "tables";
  /** Task numbers, in order of work. */
  readonly tasks: readonly number[];
  /** Places that take units in turn. */
  readonly places: number;
  /** People together at each place. */
  readonly crew: number;
  /** How long the busiest person of one place works, handling left out. */
  readonly busy: Ratio;
  /** The same of all people of the place together. */
  readonly personTime: Ratio;
  /** Time lost to moving and positioning, at all passes of a good unit. */
  readonly handling: Ratio;
  /** Share of the working time that may be loaded. */
  readonly planTo: Ratio;
  readonly machines: readonly PostMachine[];
  /** Available time of its day / that of the line. */
  readonly hours: Ratio;
  /** Shifts of a day that it works; null without a calendar. */
  readonly shifts: number | null;
  /** Share of the units that are worked here. */
  readonly share: Ratio;
}

/** What a post is where it works beside the line whenever the line works, on every unit. */
export const withTheLine = (line: Line): Pick<Post, "hours" | "shifts" | "share"> => ({
  hours: ONE,
  shifts: line.calendar?.shifts.length ?? null,
  share: ONE,
});

/** A station as a post by itself: how many machines it has depends on the whole plan. */
export function postOf(line: Line, pace: Pace, station: Station): Post {
  const { id, tasks, places, crew } = station;
  return {
    id,
    kind: "station",
    tasks,
    places,
    crew,
    busy: meanTimeAt(line, station),
    personTime: personTime(line, tasks),
    handling: handlingAt(line, pace, tasks),
    planTo: floorStationOf(line, id)?.planTo ?? pace.planTo,
    machines: [],
    ...withTheLine(line),
  };
}

/** The stations of a plan as posts, in order of flow, each with its machines of those that are counted. */
export function postsOf(line: Line, pace: Pace, { stations }: Plan): Post[] {
  const counted = [...line.equipment].map(([name, count]) => machinesAt(line, pace, stations, name, count));
  return stations.map((station, at) => ({
    ...postOf(line, pace, station),
    machines: counted.flatMap((machines) => machines[at] ?? []),
  }));
}

/**
 * Machines of one name by station; null where none of them runs. Each station that uses them has one for every place; of the others
 * the busiest gets the next, as far as it needs one at the pace.
 */
function machinesAt(
  line: Line,
  pace: Pace,
  stations: readonly Station[],
  name: string,
  count: number,
): (PostMachine | null)[] {
  const users = stations.map((station) => {
    const isUsed = station.tasks.some((task) => line.tasks[task]!.equipment.includes(name));
    const machine = busyMachines(line, pace, station).find((each) => each.name === name);
    return { isUsed, machine, units: station.places };
  });
  const share = ({ machine, units }: (typeof users)[number]) => divide(machine!.busy, ratio(units));
  let free = users.reduce((left, { isUsed, units }) => (isUsed ? left - units : left), count);
  for (; free > 0; free--) {
    const [first, ...others] = users.filter(({ machine, units }) => units < (machine?.needed ?? 0));
    if (first === undefined) break;
    others.reduce((one, two) => (compare(share(two), share(one)) > 0 ? two : one), first).units++;
  }
  return users.map(({ machine, units }) =>
    machine === undefined ? null : { name, busy: machine.busy, units },
  );
}
