import type { Line } from "../../line/line.js";
import { limitsAt } from "../../line/parts/limits.js";
import { peopleAt, peopleOf } from "../../plan/figures/people.js";
import type { Plan, Station } from "../../plan/plan.js";
import { floorStationOf } from "../../plan/station-numbers.js";
import { skillsNeeded } from "../../plan/who-stands-where.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, type Ratio, ZERO } from "../../time/ratio.js";
import { type GoesOn, orderSteps, type StepOrder } from "./order-steps.js";
import { PlansOnTheWay, type Slot } from "./plans-on-the-way.js";

/** A task that changes its station in a step; `from` is null for work that is new to the line. */
export interface StepMove {
  readonly task: number;
  readonly from: string | null;
  readonly to: string;
}

/** What a station needs, or needs no more, once a step is done. */
export interface StationNeeds {
  readonly station: string;
  /** Where the line file says that it stands there, it is not named: it need not be brought, and stays. */
  readonly equipment: readonly string[];
  /** Parts of its tasks. */
  readonly parts: readonly string[];
  readonly skills: readonly string[];
  /** People at all its places. */
  readonly people: number;
  /** What the tasks of the step take of limits of a station, such as shelf; in the unit of the limit. */
  readonly room: readonly { readonly limit: string; readonly amount: Ratio; readonly unit: string }[];
}

/** A station that is set up otherwise without a task that comes or goes. */
export interface SetUp {
  readonly station: string;
  readonly placesBefore: number;
  readonly placesAfter: number;
}

/** One step of a change: what is done at once, and the line after it. */
export interface Step {
  readonly moves: readonly StepMove[];
  readonly setUps: readonly SetUp[];
  /** What is there before the step, station by station. */
  readonly bring: readonly StationNeeds[];
  /** What may go after it. */
  readonly takeAway: readonly StationNeeds[];
  readonly plan: Plan;
  /** Cycle of the plan after the step, in microseconds. */
  readonly cycle: Ratio;
  /** Whether it keeps the pace of the change, and whether it keeps the new one already. */
  readonly keepsPace: boolean;
  readonly keepsNewPace: boolean;
  /** People on the line. */
  readonly people: number;
  /** What the verifier says of today's plan, loads left out, that is still so. */
  readonly faults: readonly string[];
}

/** The way from today's plan to the new one. */
export interface Steps {
  readonly steps: readonly Step[];
  /** The line cycle that every step keeps, in microseconds: the slower of the new one and the cycle of today's plan. */
  readonly keeps: Ratio;
  /** Whether that is the new line cycle; otherwise it is the cycle of today's plan. */
  readonly keepsNew: boolean;
  /** The cycle of today's plan, in microseconds. */
  readonly before: Ratio;
  /** From this step on, counted from 1, all plans keep the new pace; 0 where today's plan and all others do. */
  readonly newPaceFrom: number;
  /** The longest cycle of today's plan and of all on the way. */
  readonly slowest: Ratio;
  /** Stations that the new plan calls otherwise; they bear the first name until the last step is done. */
  readonly renamed: readonly { readonly before: string; readonly after: string }[];
  /** No order of the moves has more steps. */
  readonly isProved: boolean;
}

/**
 * A change in steps, each with as few moves as possible, so that the line keeps a pace all the while: the new one where today's plan
 * keeps it, else what today's plan makes. Null where nothing changes. Told to end, it leaves the rest to one last step.
 *
 * @param matched which station of the plan before each station is, -1 for a new one
 */
export async function stepsOf(
  line: Line,
  pace: Pace,
  from: Plan,
  to: Plan,
  matched: readonly number[],
  goesOn: GoesOn = async () => true,
): Promise<Steps | null> {
  const ways = [true, false].map((newFirst) => new PlansOnTheWay(line, pace, from, to, matched, newFirst));
  const [first, second] = ways as [PlansOnTheWay, PlansOnTheWay];
  if (first.parts.length === 0) return null;
  const size = line.tasks.length;
  const one = await orderSteps(first, size, goesOn);
  if (idsOf(first.slots) === idsOf(second.slots) || one.groups.length === first.parts.length)
    return tellSteps(line, pace, first, one);
  const two = await orderSteps(second, size, goesOn);
  return two.groups.length > one.groups.length
    ? tellSteps(line, pace, second, two)
    : tellSteps(line, pace, first, { ...one, isProved: one.isProved && two.isProved });
}

const idsOf = (slots: readonly Slot[]): string => JSON.stringify(slots.map(({ id }) => id));

function tellSteps(line: Line, pace: Pace, way: PlansOnTheWay, { groups, isProved }: StepOrder): Steps {
  let done = 0n;
  const steps = groups.map((parts): Step => {
    const before = done;
    done = parts.reduce((set, part) => set | (1n << BigInt(part)), done);
    return tellStep(line, pace, way, parts, before, done);
  });
  const cycles = [way.cycleToday, ...steps.map(({ cycle }) => cycle)];
  return {
    steps,
    keeps: way.keeps,
    keepsNew: compare(way.keeps, pace.lineCycle) === 0,
    before: way.cycleToday,
    newPaceFrom: cycles.findLastIndex((cycle) => compare(cycle, pace.lineCycle) > 0) + 1,
    slowest: cycles.reduce((one, two) => (compare(two, one) > 0 ? two : one)),
    renamed: way.slots.flatMap(({ id, after }) =>
      after === null || after.id === id ? [] : [{ before: id, after: after.id }],
    ),
    isProved,
  };
}

function tellStep(
  line: Line,
  pace: Pace,
  way: PlansOnTheWay,
  parts: readonly number[],
  before: bigint,
  done: bigint,
): Step {
  const plan = way.planAt(done);
  const cycle = way.cycleAt(done);
  const nameOf = (slot: number) => way.slots[slot]!.id;
  const own = parts.map((part) => way.parts[part]!);
  const touched = [...new Set(own.flatMap(({ from, to }) => [from, to]))]
    .filter((slot) => slot >= 0)
    .sort((one, two) => one - two);
  const needs = (slot: number, here: bigint, there: bigint): StationNeeds => {
    const coming = own.filter(({ from, to }) => from !== to && (here === done ? to : from) === slot);
    const [now, then] = [way.stationAt(slot, here), way.stationAt(slot, there)];
    return needsOf(
      line,
      nameOf(slot),
      now,
      then,
      coming.flatMap(({ tasks }) => tasks),
    );
  };
  return {
    moves: own
      .filter(({ from, to }) => from !== to)
      .flatMap(({ tasks, from, to }) =>
        tasks.map((task) => ({ task, from: from < 0 ? null : nameOf(from), to: nameOf(to) })),
      ),
    setUps: own
      .filter(({ from, to }) => from === to)
      .map(({ from: slot }) => ({
        station: nameOf(slot),
        placesBefore: way.slots[slot]!.before!.places,
        placesAfter: way.slots[slot]!.after!.places,
      })),
    bring: touched.map((slot) => needs(slot, done, before)).filter(isAnything),
    takeAway: touched.map((slot) => needs(slot, before, done)).filter(isAnything),
    plan,
    cycle,
    keepsPace: compare(cycle, way.keeps) <= 0,
    keepsNewPace: compare(cycle, pace.lineCycle) <= 0,
    people: peopleOf(plan),
    faults: way.faultsAt(done),
  };
}

/** What a station as it is has and does not have as it was, or the other way round; `tasks` are those that make the difference. */
function needsOf(
  line: Line,
  station: string,
  now: Station | null,
  then: Station | null,
  tasks: readonly number[],
): StationNeeds {
  const equipmentAt = (at: Station | null) => at?.tasks.flatMap((task) => line.tasks[task]!.equipment) ?? [];
  const partsAt = (at: Station | null) =>
    at?.tasks.flatMap((task) => line.tasks[task]!.parts.map(({ id }) => id)) ?? [];
  const hadParts = new Set(partsAt(then));
  const floor = floorStationOf(line, station);
  const had = new Set([...equipmentAt(then), ...(floor?.equipment ?? [])]);
  const could = new Set(then === null ? [] : skillsNeeded(line, then));
  const people = (at: Station | null) => (at === null ? 0 : peopleAt(at));
  return {
    station,
    equipment: [...new Set(equipmentAt(now))].filter((name) => !had.has(name)),
    parts: [...new Set(partsAt(now))].filter((name) => !hadParts.has(name)),
    skills: now === null ? [] : skillsNeeded(line, now).filter((name) => !could.has(name)),
    people: Math.max(0, people(now) - people(then)),
    room: limitsAt(line, floor)
      .filter(({ per }) => per === "station")
      .flatMap(({ name, unit }) => {
        const amount = tasks
          .flatMap((task) => line.tasks[task]!.uses.filter(({ limit }) => limit === name))
          .reduce((sum, use) => add(sum, use.amount), ZERO);
        return compare(amount, ZERO) > 0 ? [{ limit: name, amount, unit }] : [];
      }),
  };
}

const isAnything = ({ equipment, parts, skills, people, room }: StationNeeds): boolean =>
  equipment.length + parts.length + skills.length + people + room.length > 0;

/** Steps spread over days. */
export interface StepSpread {
  /** So many days were asked for; there are no more than steps. */
  readonly asked: number;
  readonly days: readonly StepDay[];
}

/** Steps done on one day, one after the other. */
export interface StepDay {
  /** First and last step, counted from 1. */
  readonly first: number;
  readonly last: number;
  readonly moves: number;
  readonly plan: Plan;
}

/**
 * Steps in a row spread over days, as even as possible in moves: the sum of the squares of the moves of each day is the least; of equals the
 * earlier days take more. A station that is set up otherwise counts as one move. No day is left without a step.
 */
export function spreadSteps(steps: readonly Step[], asked: number): StepSpread {
  const counts = steps.map(({ moves, setUps }) => moves.length + setUps.length);
  const upTo = [0];
  for (const count of counts) upTo.push(upTo.at(-1)! + count);
  const most = Math.min(asked, steps.length);
  // least[day][first]: the least sum of squares of the steps from `first` on over so many days.
  const least: number[][] = [Array.from({ length: steps.length + 1 }, () => Number.POSITIVE_INFINITY)];
  least[0]![steps.length] = 0;
  const end: number[][] = [[]];
  for (let day = 1; day <= most; day++) {
    const [row, ends] = [[] as number[], [] as number[]];
    for (let first = 0; first <= steps.length; first++) {
      row[first] = Number.POSITIVE_INFINITY;
      for (let next = steps.length; next > first; next--) {
        const sum = (upTo[next]! - upTo[first]!) ** 2 + least[day - 1]![next]!;
        if (sum < row[first]!) [row[first], ends[first]] = [sum, next];
      }
    }
    least.push(row);
    end.push(ends);
  }
  const days: StepDay[] = [];
  for (let [day, first] = [most, 0]; day > 0; day--) {
    const next = end[day]![first]!;
    days.push({
      first: first + 1,
      last: next,
      moves: upTo[next]! - upTo[first]!,
      plan: steps[next - 1]!.plan,
    });
    first = next;
  }
  return { asked, days };
}
