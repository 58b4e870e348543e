import type { Line } from "../line/line.js";
import { handlingAt } from "../line/passes.js";
import type { Pace } from "../time/pace.js";
import { add, compare, divide, larger, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { unitsFor } from "./figures/machines.js";
import { personTime } from "./figures/person-time.js";
import type { Plan, Station } from "./plan.js";
import { floorStationOf } from "./station-numbers.js";
import { dwellAt, equipmentTimes, meanTimeAt } from "./station-schedule.js";

/** Equipment of one name at a post, of which the line counts how many exist. */
export interface PostEquipment {
  readonly name: string;
  /** How long one unit that comes here keeps one of them, in microseconds: its holds, and what is done again. */
  readonly held: Ratio;
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
  /** How long a unit stands at a place, what machines run by themselves included. */
  readonly dwell: Ratio;
  /** Units that may stand at one place at a time. */
  readonly holds: number;
  /** What the line counts of the equipment here; of any other there is enough. */
  readonly equipment: readonly PostEquipment[];
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

/** A station as a post by itself: how much of its equipment it has depends on the whole plan. */
export function postOf(line: Line, pace: Pace, station: Station): Post {
  const { id, tasks, places, crew } = station;
  const floor = floorStationOf(line, id);
  return {
    id,
    kind: "station",
    tasks,
    places,
    crew,
    busy: meanTimeAt(line, station),
    personTime: personTime(line, tasks),
    handling: handlingAt(line, pace, tasks),
    planTo: floor?.planTo ?? pace.planTo,
    dwell: dwellAt(line, station),
    holds: floor?.holds ?? line.holds,
    equipment: [],
    ...withTheLine(line),
  };
}

/** The stations of a plan as posts, in order of flow, each with the counted equipment that it has. */
export function postsOf(line: Line, pace: Pace, { stations }: Plan): Post[] {
  const posts = stations.map((station) => postOf(line, pace, station));
  const shared = shareEquipment(line, pace, stations, posts);
  return posts.map((post, at) => ({ ...post, equipment: shared[at]! }));
}

/**
 * The counted equipment of each station. Each that uses a name has one of it; of the others, the station whose units keep theirs longest
 * gets the next, as far as it needs one at the pace, has a place without one, or is held up by it while a further unit stands there.
 */
function shareEquipment(
  line: Line,
  pace: Pace,
  stations: readonly Station[],
  posts: readonly Post[],
): PostEquipment[][] {
  const shared = stations.map((): PostEquipment[] => []);
  if (line.equipment.size === 0) return shared;
  const times = stations.map((station) => equipmentTimes(line, station));
  const slowest = posts.map(cycleWithoutEquipment).reduce(larger, ZERO);
  for (const [name, count] of line.equipment) {
    const users = stations.flatMap(({ places }, at) => {
      const held = times[at]!.get(name);
      if (held === undefined) return [];
      const wanted = Math.max(places, unitsFor(held, pace.lineCycle));
      return [{ at, held, units: 1, wanted, most: places * posts[at]!.holds }];
    });
    const shareOf = ({ held, units }: (typeof users)[number]) => divide(held, ratio(units));
    for (let free = count - users.length; free > 0; free--) {
      const [first, ...others] = users.filter(
        (user) => user.units < user.wanted || (user.units < user.most && compare(shareOf(user), slowest) > 0),
      );
      if (first === undefined) break;
      others.reduce((one, two) => (compare(shareOf(two), shareOf(one)) > 0 ? two : one), first).units++;
    }
    for (const { at, held, units } of users) shared[at]!.push({ name, held, units });
  }
  return shared;
}

/** What people and the room where units stand can keep at a station. */
const cycleWithoutEquipment = ({ busy, dwell, holds, handling, places }: Post): Ratio =>
  divide(add(larger(busy, divide(dwell, ratio(holds))), handling), ratio(places));
