import type { Line } from "../../line/line.js";
import { divide, type Ratio, ratio } from "../../time/ratio.js";
import { fromParts } from "../parts.js";
import type { LeastLimitBound } from "../search/least-limit.js";
import { type BoundFacts, boundFacts, type TimedTask } from "./bound-facts.js";

/** People of a place who may each be at a task of their own at once. */
export interface AtOnce {
  readonly by: "sides" | "crew";
  readonly people: number;
}

/** Null where all of a place are at one task. */
export const workedAtOnce = ({ tasks }: Line, people: number): AtOnce | null =>
  people === 1 ? null : { by: tasks.some(({ side }) => side !== null) ? "sides" : "crew", people };

/** Why no plan with as many stations has a shorter cycle; times in microseconds, station times without handling. */
export type CycleReason =
  /** One task alone takes so long. */
  | { readonly kind: "longest-task"; readonly task: TimedTask }
  /** The work shared among the stations, and the shortest station time from there on. */
  | {
      readonly kind: "work-content";
      readonly workContent: Ratio;
      readonly stations: number;
      readonly share: Ratio;
      readonly least: Ratio;
    }
  /** At the next shorter station time a bound asks for too many stations. */
  | {
      readonly kind: "stations";
      readonly least: Ratio;
      readonly shorter: Ratio;
      readonly bound: BoundFacts;
    }
  /** Every way to keep so many stations at the next shorter station time was ruled out. */
  | {
      readonly kind: "search";
      readonly stations: number;
      readonly least: Ratio;
      readonly shorter: Ratio;
      readonly nodes: number;
    }
  /** Every way to keep anything shorter was ruled out under the rules of the line. */
  | { readonly kind: "rules-search"; readonly nodes: number }
  /** The work shared among as many people, and the longest task. */
  | { readonly kind: "work-of-people" }
  /** What one model takes in all, or for some tasks, which may be above the working time by the overload. */
  | {
      readonly kind: "model";
      /** Number of the model. */
      readonly model: number;
      readonly time: Ratio;
      readonly of: { readonly tasks: readonly number[] } | { readonly stations: number };
      readonly atOnce: AtOnce | null;
      readonly overload: Ratio;
    }
  /** What a counted machine is loaded and runs for a unit. */
  | {
      readonly kind: "machine";
      readonly equipment: string;
      readonly busy: Ratio;
      readonly count: number;
    };

/** The facts of a certificate of the longest station time. */
export function cycleReason(line: Line, bound: LeastLimitBound): CycleReason {
  const time = (parts: number) => fromParts(line, parts);
  const least = time(bound.limit);
  switch (bound.kind) {
    case "longest-task":
      return { kind: "longest-task", task: { task: bound.task, time: least } };
    case "work-content": {
      const workContent = time(bound.workContent);
      const share = divide(workContent, ratio(bound.count));
      return { kind: "work-content", workContent, stations: bound.count, share, least };
    }
    case "stations": {
      const facts = boundFacts(line, bound.bound, bound.shorter);
      return { kind: "stations", least, shorter: time(bound.shorter), bound: facts };
    }
    case "search": {
      const { count, nodes } = bound;
      return { kind: "search", stations: count, least, shorter: time(bound.shorter), nodes };
    }
  }
}
