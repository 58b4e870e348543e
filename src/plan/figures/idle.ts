import type { Line } from "../../line/line.js";
import { availableTimeOfDay } from "../../time/calendar.js";
import { add, larger, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import type { Post } from "../post.js";
import { paidAt } from "./efficiency.js";
import { shiftTime, unitsStarted } from "./output.js";
import { workedAt } from "./work-content.js";

/** Idle = crew x working time - person-time worked, never below 0, for one unit of the line in microseconds; the reserve is part of it. */
export const idleAt = (post: Post, lineCycle: Ratio): Ratio =>
  larger(ZERO, subtract(paidAt(post, lineCycle), workedAt(post)));

/** Idle of all posts for one unit of the line, in microseconds. */
export const idlePerUnit = (posts: readonly Post[], lineCycle: Ratio): Ratio =>
  posts.map((post) => idleAt(post, lineCycle)).reduce(add, ZERO);

/** Idle per unit x units started in a shift, in microseconds; null without a calendar, where shifts differ, and without a line cycle. */
export const idlePerShift = (line: Line, lineCycle: Ratio, perUnit: Ratio): Ratio | null =>
  idleIn(line, shiftTime(line), lineCycle, perUnit);

/** The same of all shifts of a day; null without a calendar or a line cycle. */
export const idlePerDay = (line: Line, lineCycle: Ratio, perUnit: Ratio): Ratio | null =>
  idleIn(line, line.calendar && availableTimeOfDay(line.calendar), lineCycle, perUnit);

function idleIn(line: Line, available: number | null, lineCycle: Ratio, perUnit: Ratio): Ratio | null {
  const started = available === null ? null : unitsStarted(line, ratio(available), lineCycle);
  return started && multiply(perUnit, started);
}
