import type { Pace } from "../time/pace.js";
import { add, compare, divide, multiply, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";

/** Where people work for the line: at a station of it, at a bench beside it, or at a table of their own. Times in microseconds. */
export interface Post {
  readonly id: string;
  readonly kind: "station" | "bench" | "tables";
  /** Task numbers of the whole line, in order of work. */
  readonly tasks: readonly number[];
  readonly places: number;
  readonly crew: number;
  /** How long one unit keeps a place busy, without handling. */
  readonly busy: Ratio;
  /** Person-time of one unit. */
  readonly personTime: Ratio;
  /** Available time of its day / that of the line. */
  readonly hours: Ratio;
  /** Shifts of a day that it works; null without a calendar. */
  readonly shifts: number | null;
  /** Share of the units that are worked here. */
  readonly share: Ratio;
}

export const peopleAt = ({ crew, places }: Post): number => crew * places;

/** (Time of one unit + handling) x share of the units / (places x hours): the line cycle that the post can just keep. */
export function cycleOf({ busy, share, places, hours }: Post, { handling }: Pace): Ratio {
  return divide(multiply(add(busy, ratio(handling)), share), multiply(ratio(places), hours));
}

/** Person-time paid per unit of the line = crew x (places x line cycle x hours - handling x share). */
export function paidAt(post: Post, { handling }: Pace, lineCycle: Ratio): Ratio {
  const open = multiply(multiply(ratio(post.places), lineCycle), post.hours);
  return multiply(ratio(post.crew), subtract(open, multiply(ratio(handling), post.share)));
}

/** Person-time worked per unit of the line = person-time of one unit x share. */
export const workedAt = ({ personTime, share }: Post): Ratio => multiply(personTime, share);

/** Whether the post cannot keep the pace. */
export function isOverloaded(post: Post, pace: Pace): boolean {
  return compare(cycleOf(post, pace), pace.lineCycle) > 0;
}

/** Idle person-time per unit of the line = paid - worked, never below 0. */
export function idleAt(post: Post, pace: Pace): Ratio {
  const idle = subtract(paidAt(post, pace, pace.lineCycle), workedAt(post));
  return compare(idle, ZERO) > 0 ? idle : ZERO;
}
