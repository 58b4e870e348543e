import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, ONE, type Ratio, ratio } from "../time/ratio.js";
import { busyMachines } from "./figures/machines.js";
import { personTime } from "./figures/person-time.js";
import type { Plan, Station } from "./plan.js";
import { floorStationOf } from "./station-numbers.js";
import { meanTimeAt } from "./station-schedule.js";

/** Machines of one kind at a post that are loaded and then run by themselves. */
export interface PostMachine {
  /** The equipment; null for a machine that the file gives no name. */
  readonly name: string | null;
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
  /** Time lost to moving and positioning. */
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

/** A station as a post, with the machines that the pace asks for; how many of them exist is not asked. */
export function postOf(line: Line, pace: Pace, station: Station): Post {
  const { id, tasks, places, crew } = station;
  const machines = busyMachines(line, pace, station).map(({ name, busy, needed }) => ({
    name,
    busy,
    units: Math.max(places, needed),
  }));
  return {
    id,
    kind: "station",
    tasks,
    places,
    crew,
    busy: meanTimeAt(line, station),
    personTime: personTime(line, tasks),
    handling: ratio(pace.handling),
    planTo: floorStationOf(line, id)?.planTo ?? pace.planTo,
    machines,
    ...withTheLine(line),
  };
}

/** The stations of a plan as posts, in order of flow, with no more machines than exist. */
export function postsOf(line: Line, pace: Pace, { stations }: Plan): Post[] {
  const posts = stations.map((station) => postOf(line, pace, station));
  return [...line.equipment].reduce((all, [name, count]) => asManyAs(line, all, name, count), posts);
}

/** Each has one for every place; of the others the busiest gets the next, as far as it needs one. */
function asManyAs(line: Line, posts: readonly Post[], name: string, count: number): Post[] {
  const using = posts.filter(({ tasks }) => tasks.some((task) => line.tasks[task]!.equipment.includes(name)));
  const given = new Map(using.map((post) => [post, post.places]));
  const machineOf = (post: Post) => post.machines.find((each) => each.name === name);
  const share = (post: Post) => divide(machineOf(post)!.busy, ratio(given.get(post)!));
  for (let free = count - using.reduce((sum, { places }) => sum + places, 0); free > 0; free--) {
    const short = using.filter((post) => given.get(post)! < (machineOf(post)?.units ?? 0));
    const [first, ...others] = short;
    if (first === undefined) break;
    const busiest = others.reduce((one, two) => (compare(share(two), share(one)) > 0 ? two : one), first);
    given.set(busiest, given.get(busiest)! + 1);
  }
  return posts.map((post) => ({
    ...post,
    machines: post.machines.map((machine) =>
      machine.name === name ? { ...machine, units: given.get(post)! } : machine,
    ),
  }));
}
