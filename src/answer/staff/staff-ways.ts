import type { Line } from "../../line/line.js";
import { cycleOfPlan } from "../../plan/figures/cycle.js";
import { heldCycle } from "../../plan/figures/held-cycle.js";
import { peopleAtRepairs, peopleHired, peopleInAll, peopleOf } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import { availableTime, type Calendar, type Shift } from "../../time/calendar.js";
import type { Demand } from "../../time/demand.js";
import { ceiling, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { taktSum } from "../../time/takt.js";
import { MICROS_IN } from "../../time/units.js";
import { asItIs } from "../rebalance/as-it-is.js";
import type { NoWay, StaffCrew, StaffQuestion, StaffWay } from "./staff-answer.js";
import { outcomeOf, type Staffing, staffDemand } from "./staff-balance.js";

const DAY = 24 * MICROS_IN.h;
const MOST_SHIFTS = 3;

/** A demand as units of the day; null without a calendar, or at a demand that leaves no working time. */
export function demandOfDay(line: Line, demand: Demand): Demand | null {
  const takt = taktSum({ ...line, demand });
  if (!takt.ok || takt.value.calendar === null) return null;
  return { units: takt.value.calendar.demandPerDay, period: "day" };
}

/** The same units of a day in one, two and three shifts like the first one of the file, each with people of its own. */
export async function shiftWays(line: Line, day: Demand, question: StaffQuestion): Promise<StaffWay[]> {
  const [first] = line.calendar?.shifts ?? [];
  if (first === undefined) return [];
  const ways: StaffWay[] = [];
  for (let shifts = 1; shifts <= MOST_SHIFTS; shifts++) {
    const way = { ...NO_WAY, kind: "shifts" as const, shifts };
    const tooLong = longerThanDay(first, shifts);
    if (tooLong !== null) {
      ways.push({ ...way, reason: tooLong });
      continue;
    }
    const calendar = withShifts(line, shifts, first);
    const found = await staffDemand({ ...line, calendar }, day, question.nodes, question, true);
    ways.push({ ...way, ...waysFigures(found, found.plan, question) });
  }
  return ways;
}

/** What each crew must work a shift for the units of a day, from its own cycle: overtime, or shorter hours. */
export function hoursWays(
  line: Line,
  day: Demand,
  crews: readonly StaffCrew[],
  question: StaffQuestion,
): StaffWay[] {
  return crews.flatMap((crew) => hoursWay(line, day, crew, question) ?? []);
}

function hoursWay(
  line: Line,
  day: Demand,
  { plan, people, demand }: StaffCrew,
  question: StaffQuestion,
): StaffWay | null {
  const takt = taktSum({ ...line, demand: day });
  if (!takt.ok || line.calendar === null) return null;
  const { timeNeeded, overtime, cycleOfPlan: cycle, outputCycle } = asItIs(line, takt.value.pace, plan);
  if (timeNeeded === null || overtime === null) return null;
  const shifts = line.calendar.shifts.map((shift) => worked(shift, overtime));
  const way = {
    ...NO_WAY,
    kind: "hours" as const,
    shifts: shifts.length,
    crewOf: demand,
    people,
    cycleOfPlan: cycle,
    outputCycle,
    timePerShift: timeNeeded,
    overtime,
  };
  if (sumOf(shifts) > DAY)
    return { ...way, people: null, reason: { kind: "hours-longer-than-day", day: sumOf(shifts) } };
  const asked = { ...line, demand: day, calendar: { ...line.calendar, shifts } };
  const then = taktSum({ ...asked, demand: day });
  if (!then.ok) return { ...way, people: null, reason: { kind: "no-pace", problem: then.problem } };
  const repair = peopleAtRepairs(asked, then.value.pace);
  const all = peopleInAll(asked, { operators: people, repairPeople: repair });
  return {
    ...way,
    people: all.atATime,
    peoplePerDay: all.perDay,
    hired: peopleHired(line, all.perDay),
    pace: then.value.pace,
    costPerUnit: question.costOf(asked, then.value, plan),
    outcome: "found",
  };
}

const sumOf = (shifts: readonly Shift[]): number =>
  shifts.reduce((sum, { gross, overtime }) => sum + gross + overtime, 0);

const NO_WAY = {
  crewOf: null,
  people: null,
  peoplePerDay: null,
  hired: null,
  pace: null,
  cycleOfPlan: null,
  outputCycle: null,
  timePerShift: null,
  overtime: null,
  costPerUnit: null,
  outcome: "infeasible" as const,
  reason: null,
};

function waysFigures(found: Staffing, plan: Plan | null, question: StaffQuestion): Partial<StaffWay> {
  const { line, takt, repair } = found;
  const [first] = line.calendar!.shifts;
  const common = {
    pace: takt?.pace ?? null,
    timePerShift: ratio(availableTime(first!)),
    overtime: ZERO,
    outcome: outcomeOf(found),
  };
  if (plan === null || takt === null)
    return { ...common, reason: { kind: "no-plan", isProved: found.outcome === "infeasible" } };
  const all = peopleInAll(line, { operators: peopleOf(plan), repairPeople: repair });
  const cycle = cycleOfPlan(postsOf(line, takt.pace, plan));
  return {
    ...common,
    people: all.atATime,
    peoplePerDay: all.perDay,
    hired: peopleHired(line, all.perDay),
    cycleOfPlan: cycle,
    outputCycle: heldCycle(line, plan, cycle),
    costPerUnit: question.costOf(line, takt, plan),
  };
}

function withShifts(line: Line, shifts: number, first: Shift): Calendar {
  const each = Array.from({ length: shifts }, (_, at) => ({ ...first, name: `${first.name} ${at + 1}` }));
  return { ...line.calendar!, shifts: each };
}

function longerThanDay({ gross, overtime }: Shift, shifts: number): NoWay | null {
  const each = gross + overtime;
  return each * shifts <= DAY ? null : { kind: "shifts-longer-than-day", shifts, each };
}

/** A shift with so much more time, or less, in whole microseconds; what is saved comes off its overtime first. */
function worked(shift: Shift, more: Ratio): Shift {
  const change = Number(ceiling(more));
  const overtime = Math.max(0, shift.overtime + change);
  return { ...shift, overtime, gross: shift.gross + Math.min(0, shift.overtime + change) };
}
