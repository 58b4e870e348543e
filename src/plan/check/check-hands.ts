import type { Line } from "../../line/line.js";
import { columnOf } from "../../line/task-load.js";
import type { Pace } from "../../time/pace.js";
import {
  compare,
  divide,
  larger,
  leastCommonMultiple,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import { cycleOfPost } from "../figures/cycle.js";
import { standingLimit, workingTime } from "../figures/working-time.js";
import { leastPeriod, type PeriodicTask, type PeriodicUse } from "../models/least-period.js";
import type { Plan, Station } from "../plan.js";
import { type Post, postsOf } from "../post.js";
import { orderStation, takersOf } from "../station-order.js";
import { dwellOfUnit, heldByUnit, modelTime, scheduleUnits, type UnitSchedule } from "../station-schedule.js";
import { showBoth } from "../verify/fault.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** So many nodes are looked at for a station, and so many starts of tasks at the most. */
const NODES = 4_000;
const MOST_STARTS = 48;

/** The least line cycle at which the units of a place, or all places of a station, keep out of each other's way. */
interface Need {
  /** The model that such units are of; null where all are alike. */
  readonly model: number | null;
  /** Equipment that places, or units at one place, share. */
  readonly shared: readonly string[];
  /** Null where it is not known. */
  readonly least: Ratio | null;
}

/**
 * A finding for each station where people, room and equipment suffice on average, and yet a person, or an equipment of which there is one,
 * would be wanted at two units at once, however late each task starts: a warning where all units are alike. Where models differ, a note of the
 * worst of them, as it comes true where units of it follow each other. Told only where it is certain: what the pace loses to handling and
 * what is done again are left out of it, and units may come unevenly. Nothing is told where some work is on a share of the units only.
 */
export function findHands(line: Line, pace: Pace, plan: Plan): PlanFinding[] {
  const posts = postsOf(line, pace, plan);
  return plan.stations.flatMap((station, at) => {
    const post = posts[at]!;
    if (compare(cycleOfPost(post), pace.lineCycle) > 0) return [];
    const needs = unitsAt(line, pace, station, post).flatMap(
      ({ model, schedule }) => needOf(line, pace, station, post, { model, schedule }) ?? [],
    );
    return needs.length === 0 ? [] : [tell(line, pace, post, needs.reduce(worse))];
  });
}

const worse = (one: Need, two: Need): Need => {
  if (one.least === null || two.least === null) return one.least === null && two.least !== null ? two : one;
  return compare(two.least, one.least) > 0 ? two : one;
};

/** What units get at the station, by model where that differs; none that take longer than there is for them, of which peaks tell. */
function unitsAt(line: Line, pace: Pace, station: Station, post: Post) {
  const units = scheduleUnits(line, station).filter(({ share }) => share.num > 0n);
  const isOnAll = (model: number) =>
    station.tasks.every((task) => {
      const { visits, times } = line.tasks[task]!;
      const column = columnOf(line.tasks[task]!, model);
      return times[column] === null || compare(visits[column]!, ONE) >= 0;
    });
  if (!units.every(({ model }) => isOnAll(model))) return [];
  const [first, ...others] = units;
  if (first === undefined) return [];
  if (others.every(({ schedule }) => isSame(first.schedule, schedule)))
    return [{ model: null, schedule: first.schedule }];
  const isDue = () => true;
  const working = workingTime(post, pace.lineCycle);
  const fits = (model: number) =>
    compare(modelTime(line, station, model), working) <= 0 &&
    compare(dwellOfUnit(line, station, model, isDue), standingLimit(post, pace.lineCycle)) <= 0 &&
    post.equipment.every(
      ({ name, units: there }) =>
        compare(heldByUnit(line, station, name, { model, isDue }), multiply(ratio(there), pace.lineCycle)) <=
        0,
    );
  return units.filter(({ model }) => fits(model));
}

/** Null where the pace is enough, or that is not known. */
function needOf(
  line: Line,
  pace: Pace,
  station: Station,
  post: Post,
  { model, schedule: unit }: { readonly model: number | null; readonly schedule: UnitSchedule },
): Need | null {
  const { holds, places } = post;
  const { turns, holds: kept } = orderStation(line, station);
  const stands = unit.ends.reduce(larger, ZERO);
  const isOneByOne = holds === 1 || compare(stands, workingTime(post, pace.lineCycle)) <= 0;
  const single = post.equipment.filter(({ units }) => units === 1).map(({ name }) => name);
  const isShared = single.length > 0 && (places > 1 || !isOneByOne);
  if (isOneByOne && !isShared) return null;
  const lost = multiply(ratio(holds), post.handling);
  // All times as whole numbers of one measure.
  const lengths = unit.ends.flatMap((end, at) => [subtract(end, unit.starts[at]!), lengthOfHands(unit, at)]);
  const parts = ratio([lost, ...lengths].map(({ den }) => den).reduce(leastCommonMultiple, 1n));
  const whole = (time: Ratio) => multiply(time, parts).num;
  const tasks: PeriodicTask[] = [];
  for (const { at, hands, whole: over } of turns)
    tasks[at] = {
      hands: whole(lengthOfHands(unit, at)),
      whole: whole(subtract(unit.ends[at]!, unit.starts[at]!)),
      takers: takersOf(station, at),
      hangsOn: hands,
      follows: over,
    };
  const shared = (isShared ? kept : [])
    .filter(({ name }) => single.includes(name))
    .map(({ name, members }) => useOf(name, members, tasks));
  const interval = multiply(multiply(ratio(places), pace.lineCycle), parts);
  // Every unit at the same times of its interval is the quicker question, and enough where the answer is yes.
  const beside = isShared ? places : 1;
  const terms = { places: beside, shared, lost: whole(lost) };
  const same = { ...terms, units: beside, stays: holds, from: interval };
  if (tasks.length * beside > MOST_STARTS) return null;
  const quick = leastPeriod(tasks, same, NODES);
  if (quick?.isFromFirst || tasks.length * beside * holds > MOST_STARTS) return null;
  const inTurn = ratio(holds);
  const own = { ...terms, units: beside * holds, stays: 1, from: multiply(interval, inTurn) };
  const found = holds === 1 ? quick : leastPeriod(tasks, own, NODES);
  if (found === null || found.isFromFirst) return null;
  const cycles = multiply(multiply(inTurn, ratio(places)), parts);
  const least = found.least === null ? null : divide(found.least, cycles);
  return { model, shared: isShared ? single : [], least };
}

/** From the first of the tasks that keep it until the one of them that is over last, as far as their order goes. */
function useOf(name: string, members: readonly number[], tasks: readonly PeriodicTask[]): PeriodicUse {
  const own = members.filter((at) => tasks[at]!.whole > 0n);
  const first = own[0] ?? members[0]!;
  const last = own.at(-1) ?? first;
  return { by: `shared: ${name}`, from: first, until: last, time: tasks[last]!.whole };
}

const lengthOfHands = ({ starts, handEnds }: UnitSchedule, at: number): Ratio =>
  subtract(handEnds[at]!, starts[at]!);

const isSame = (one: UnitSchedule, two: UnitSchedule): boolean =>
  one.starts.every(
    (start, at) =>
      compare(start, two.starts[at]!) === 0 &&
      compare(one.handEnds[at]!, two.handEnds[at]!) === 0 &&
      compare(one.ends[at]!, two.ends[at]!) === 0,
  );

/** "S1: with 2 units at a place, one person is wanted at two units at once at this pace (25 s); the work of both fits only from 28.5 s on". */
function tell(line: Line, { lineCycle }: Pace, post: Post, { model, shared, least }: Need): PlanFinding {
  const { id, holds, places } = post;
  const [pace, from] =
    least === null ? showTimesApart(line.unit, lineCycle) : showBoth(line, lineCycle, least);
  const units = places * holds;
  const room = shared.length > 0 && places > 1 ? `${places} places` : `${holds} units at a place`;
  const what = ["one person", ...shared.map((name) => `the one ${name}`)].join(" or ");
  const of = model === null ? "" : ` where units of ${line.models[model]!.id} follow each other`;
  const wanted = `${id}: with ${room}, ${what} is wanted at two units at once at this pace (${pace})${of}`;
  const all = (shared.length > 0 ? units : holds) === 2 ? "both" : "all";
  return planFinding({
    rule: "hands-at-two-units",
    severity: model === null ? "warning" : "note",
    message: least === null ? wanted : `${wanted}; the work of ${all} fits only from ${from} on`,
    file: line.file,
    station: id,
    amount: least === null ? null : subtract(least, lineCycle),
  });
}
