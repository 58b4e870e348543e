import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { PeopleByWork, PeopleInAll, PeopleOfShift } from "../../plan/figures/people.js";
import type { PlanMeasures } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import type { Demand } from "../../time/demand.js";
import type { DemandRange } from "../../time/demand-range.js";
import type { Pace } from "../../time/pace.js";
import type { Ratio } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import type { LineFacts } from "../balance/shown-balance.js";
import type { outcomeOf, StaffOptions } from "./staff-balance.js";
import type { MachinesNeeded } from "./staff-machines.js";
import type { StaffStep } from "./staff-steps.js";

export type StaffOutcome = ReturnType<typeof outcomeOf>;

export interface StaffQuestion extends StaffOptions {
  /** Partial plans that each row may look at, and each way; changes between rows share as many. */
  readonly nodes: number;
  /** Null where no plan was given. */
  readonly today: Plan | null;
  /** The whole line with the benches of today's plan, which stay as they are; null without a plan. */
  readonly beside: { readonly line: Line; readonly plan: Plan } | null;
  /** Cost of a unit by a plan; null where that is not known. */
  costOf(line: Line, takt: TaktSum, plan: Plan): Ratio | null;
}

/** Moves from today's plan; "proved": no plan of so many people has fewer. */
export interface StaffMoves {
  readonly count: number;
  readonly outcome: "proved" | "found";
}

/** The people of a working day by shift, those at the benches of today's plan among them. */
export interface Roster {
  readonly shifts: readonly PeopleOfShift[];
  readonly perDay: number;
}

/** One demand of the range; null where there is no plan or nothing of the kind. */
export interface StaffRow {
  readonly demand: Demand;
  readonly takt: TaktSum | null;
  readonly outcome: StaffOutcome;
  /** No plan has fewer people at a time; null where that is not known, and where there is no plan. */
  readonly leastPeople: number | null;
  readonly plan: Plan | null;
  readonly measures: PlanMeasures | null;
  /** Good units of a day, where shifts differ in length; else null. */
  readonly outputPerDay: number | null;
  readonly people: PeopleInAll | null;
  readonly hired: number | null;
  /** Who is there in each shift of a working day; null without a calendar, and without a plan. */
  readonly roster: Roster | null;
  readonly byWork: PeopleByWork | null;
  /** What a shift of the crew that hours are told of must work, in microseconds. */
  readonly hours: Ratio | null;
  readonly moves: StaffMoves | null;
  readonly costPerUnit: Ratio | null;
  readonly machines: readonly MachinesNeeded[];
}

/** Whose hours are told beside the people of each demand. */
export interface StaffCrew {
  readonly people: number;
  readonly plan: Plan;
  /** The demand that the crew is for; null for that of today's plan. */
  readonly demand: Demand | null;
}

/** Why a way to make a demand cannot be gone; times of a day in microseconds, breaks among them. */
export type NoWay =
  | { readonly kind: "shifts-longer-than-day"; readonly shifts: number; readonly each: number }
  | { readonly kind: "hours-longer-than-day"; readonly day: number }
  | { readonly kind: "no-plan"; readonly isProved: boolean }
  /** What the calendar or the losses say against the pace. */
  | { readonly kind: "no-pace"; readonly problem: string };

/** Another way to make one demand: other shifts, or other hours of a crew. */
export interface StaffWay {
  readonly kind: "shifts" | "hours";
  readonly shifts: number;
  /** For "hours": the demand whose crew it is; null for today's plan. */
  readonly crewOf: Demand | null;
  /** At a time; null where there is no plan. */
  readonly people: number | null;
  readonly peoplePerDay: number | null;
  readonly hired: number | null;
  readonly pace: Pace | null;
  readonly cycleOfPlan: Ratio | null;
  /** How often a good unit comes at the best: the same, or more where waits hold up a line that moves together; in microseconds. */
  readonly outputCycle: Ratio | null;
  /** Working time of a shift, breaks and stops taken off, in microseconds. */
  readonly timePerShift: Ratio | null;
  /** On top of the shift, below 0 where it ends sooner, in microseconds. */
  readonly overtime: Ratio | null;
  readonly costPerUnit: Ratio | null;
  readonly outcome: StaffOutcome;
  /** Why it cannot be done; null where it can. */
  readonly reason: NoWay | null;
}

/** People as demand moves: the whole answer of `staff`. Reports read it and compute nothing. */
export interface StaffAnswer {
  readonly line: Line;
  readonly range: DemandRange;
  readonly outcome: StaffOutcome;
  readonly rows: readonly StaffRow[];
  readonly steps: readonly StaffStep[];
  readonly crew: StaffCrew | null;
  /** The demand that the ways are for; null where there is no calendar. */
  readonly waysDemand: Demand | null;
  readonly ways: readonly StaffWay[];
  readonly shown: LineFacts;
  /** More people are hired than work, for attendance or relief. */
  readonly hiresMore: boolean;
  /** What other numbers of shifts are each assumed to be like, with its available time; null where all are alike. */
  readonly assumedShift: { readonly name: string; readonly available: number } | null;
  readonly nodes: number;
  /** How often the partial plans of a search double until a plan is found. */
  readonly doublings: number;
  readonly isCut: boolean;
  readonly findings: readonly Finding[];
}
