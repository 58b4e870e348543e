import type { Bench, Line } from "../line/line.js";
import { placesFor } from "../off-line/bench.js";
import { inOrderOfWork, timeOf } from "../off-line/find-blocks.js";
import { availableTimeOfDay } from "../time/calendar.js";
import type { Micros } from "../time/duration.js";
import type { Pace } from "../time/pace.js";
import {
  add,
  ceiling,
  compare,
  divide,
  floor,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../time/ratio.js";
import type { Post } from "./post.js";

/** A bench of an option with what it takes. */
export interface OptionBench {
  readonly post: Post;
  /** Shifts of a day that it works; null without a calendar. */
  readonly shifts: number | null;
  /** Tasks of the line that wait for it, ascending. */
  readonly joinsAt: readonly number[];
  /** Time per unit to take the parts over where they join, in microseconds. */
  readonly takeOver: Micros;
  /** Share of its time, less the plan-to reserve, that is worked; 1 is full. */
  readonly load: Ratio;
  /** Units' parts that lie between bench and line; null without a calendar. */
  readonly stock: number | null;
}

/** The bench with as many places as the pace of the line asks for in the shifts that it works. */
export function benchOfOption(line: Line, pace: Pace, bench: Bench): OptionBench {
  const lineShifts = line.calendar?.shifts.length ?? null;
  const shifts = lineShifts === null ? null : (bench.shifts ?? lineShifts);
  const hours = lineShifts === null ? ONE : ratio(shifts!, lineShifts);
  const tasks = inOrderOfWork(line, bench.tasks);
  const busy = add(timeOf(line, tasks), ratio(bench.handOver));
  const crew = Math.max(...tasks.map((task) => line.tasks[task]!.people));
  const ownCycle = divide(multiply(pace.lineCycle, hours), bench.share);
  const personTime = tasks
    .map((task) => multiply(line.tasks[task]!.load, ratio(line.tasks[task]!.people)))
    .reduce(add, ratio(bench.handOver));
  const post: Post = {
    id: bench.id,
    kind: "bench",
    tasks,
    places: placesFor({ ...pace, lineCycle: ownCycle }, busy),
    crew,
    busy,
    personTime,
    hours,
    share: bench.share,
  };
  const inside = new Set(tasks);
  const joinsAt = [...line.before.keys()].filter(
    (task) => !inside.has(task) && line.before[task]!.some((earlier) => inside.has(earlier)),
  );
  return {
    post,
    shifts,
    joinsAt,
    takeOver: bench.takeOver,
    load: loadOf(post, pace),
    stock: stockOf(line, pace, post, shifts),
  };
}

/** Work of one unit / (places x own cycle - handling) x plan-to. */
function loadOf(post: Post, pace: Pace): Ratio {
  const open = subtract(
    multiply(multiply(ratio(post.places), pace.lineCycle), post.hours),
    multiply(ratio(pace.handling), post.share),
  );
  return divide(divide(multiply(post.busy, post.share), open), pace.planTo);
}

/**
 * Units' parts that must lie ready: none where bench and line work the same hours. A bench that works longer than the line lacks,
 * at the start of the line, what the line takes in its hours less what the bench builds in them. A bench that works fewer shifts
 * leaves, at its end, what the line takes in its other shifts. Units taken are rounded up, units built down.
 */
function stockOf(line: Line, pace: Pace, post: Post, shifts: number | null): number | null {
  const { calendar } = line;
  if (calendar === null || shifts === null || compare(pace.lineCycle, ZERO) <= 0) return null;
  const lineShifts = calendar.shifts.length;
  const running = multiply(ratio(availableTimeOfDay(calendar)), line.uptime);
  const taken = multiply(divide(running, pace.lineCycle), post.share);
  if (shifts === lineShifts) return 0;
  if (shifts < lineShifts) return Number(ceiling(multiply(taken, ratio(lineShifts - shifts, lineShifts))));
  const each = add(post.busy, ratio(pace.handling));
  const built = compare(each, ZERO) > 0 ? floor(divide(multiply(running, ratio(post.places)), each)) : 0n;
  return Math.max(0, Number(ceiling(taken) - built));
}
