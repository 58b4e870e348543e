import type { Line } from "../../line/line.js";
import { columnOf } from "../../line/task-load.js";
import type { Pace } from "../../time/pace.js";
import {
  compare,
  divide,
  leastCommonMultiple,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
} from "../../time/ratio.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import { cycleOfPost } from "../figures/cycle.js";
import { workingTime } from "../figures/working-time.js";
import { leastPeriod, type PeriodicTask } from "../models/least-period.js";
import type { Plan, Station } from "../plan.js";
import { type Post, postOf } from "../post.js";
import { orderStation, takersOf } from "../station-order.js";
import { scheduleUnits, type UnitSchedule } from "../station-schedule.js";
import { showBoth } from "../verify/fault.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** So many nodes are looked at for a station, and so many starts of tasks at the most. */
const NODES = 4_000;
const MOST_STARTS = 48;

/**
 * A warning for each station with room for several units at a place where people and room suffice on average, and yet a person would be
 * wanted at two of the units at once, however late each task starts. Told only where all units are alike, and where it is certain: what
 * the pace loses to handling and what is done again are left out of it, and places take units in turn that may come unevenly.
 */
export function findHands(line: Line, pace: Pace, { stations }: Plan): PlanFinding[] {
  return stations.flatMap((station) => {
    const post = postOf(line, pace, station);
    const needs = needsAt(line, pace, station, post);
    return needs === null ? [] : [tell(line, pace, post, needs.least)];
  });
}

/** The least line cycle for the hands of a station, null where it is not known; null in place of both where the pace is enough. */
function needsAt(
  line: Line,
  pace: Pace,
  station: Station,
  post: Post,
): { readonly least: Ratio | null } | null {
  const { holds } = post;
  if (holds === 1 || compare(post.dwell, workingTime(post, pace.lineCycle)) <= 0) return null;
  if (compare(cycleOfPost(post), pace.lineCycle) > 0) return null;
  const unit = unitOfAll(line, station);
  if (unit === null) return null;
  const lost = multiply(ratio(holds), post.handling);
  // All times as whole numbers of one measure.
  const lengths = unit.ends.flatMap((end, at) => [subtract(end, unit.starts[at]!), lengthOfHands(unit, at)]);
  const parts = ratio([lost, ...lengths].map(({ den }) => den).reduce(leastCommonMultiple, 1n));
  const whole = (time: Ratio) => multiply(time, parts).num;
  const tasks: PeriodicTask[] = [];
  for (const { at, hands, whole: over } of orderStation(line, station).turns)
    tasks[at] = {
      hands: whole(lengthOfHands(unit, at)),
      whole: whole(subtract(unit.ends[at]!, unit.starts[at]!)),
      takers: takersOf(station, at),
      hangsOn: hands,
      follows: over,
    };
  const interval = multiply(multiply(ratio(station.places), pace.lineCycle), parts);
  // Every unit at the same times of its interval is the quicker question, and enough where the answer is yes.
  const same = { units: 1, stays: holds, lost: whole(lost), from: interval };
  if (tasks.length > MOST_STARTS || leastPeriod(tasks, same, NODES)?.isFromFirst) return null;
  if (tasks.length * holds > MOST_STARTS) return null;
  const inTurn = ratio(holds);
  const own = { units: holds, stays: 1, lost: whole(lost), from: multiply(interval, inTurn) };
  const found = leastPeriod(tasks, own, NODES);
  if (found === null || found.isFromFirst) return null;
  const cycles = multiply(multiply(inTurn, ratio(station.places)), parts);
  return { least: found.least === null ? null : divide(found.least, cycles) };
}

const lengthOfHands = ({ starts, handEnds }: UnitSchedule, at: number): Ratio =>
  subtract(handEnds[at]!, starts[at]!);

/** What every unit gets at the station; null where not all are alike, or some of the work is on a share of them only. */
function unitOfAll(line: Line, station: Station): UnitSchedule | null {
  const units = scheduleUnits(line, station).filter(({ share }) => share.num > 0n);
  const isOnAll = (model: number) =>
    station.tasks.every((task) => {
      const { visits } = line.tasks[task]!;
      return compare(visits[columnOf(line.tasks[task]!, model)]!, ONE) >= 0;
    });
  const [first, ...others] = units;
  if (first === undefined || !units.every(({ model }) => isOnAll(model))) return null;
  return others.every(({ schedule }) => isSame(first.schedule, schedule)) ? first.schedule : null;
}

const isSame = (one: UnitSchedule, two: UnitSchedule): boolean =>
  one.starts.every(
    (start, at) =>
      compare(start, two.starts[at]!) === 0 &&
      compare(one.handEnds[at]!, two.handEnds[at]!) === 0 &&
      compare(one.ends[at]!, two.ends[at]!) === 0,
  );

/** "S1: with 2 units at a place, one person is wanted at two units at once at this pace (25 s); the work of both fits only from 28.5 s on". */
function tell(line: Line, { lineCycle }: Pace, { id, holds }: Post, least: Ratio | null): PlanFinding {
  const [pace, from] =
    least === null ? showTimesApart(line.unit, lineCycle) : showBoth(line, lineCycle, least);
  const wanted = `${id}: with ${holds} units at a place, one person is wanted at two units at once at this pace (${pace})`;
  const both = holds === 2 ? "both" : "all";
  return planFinding({
    rule: "hands-at-two-units",
    severity: "warning",
    message: least === null ? wanted : `${wanted}; the work of ${both} fits only from ${from} on`,
    file: line.file,
    station: id,
    amount: least === null ? null : subtract(least, lineCycle),
  });
}
