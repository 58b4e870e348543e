import type { Bound } from "../bounds/bound.js";

/** What every bound says: with `count` stations at most, no plan has a shorter longest station than `limit`. */
interface Certificate<Kind extends string> {
  readonly kind: Kind;
  readonly limit: number;
  readonly count: number;
}

/** No station is shorter than the longest task at it. */
export interface LongestTaskBound extends Certificate<"longest-task"> {
  readonly task: number;
}

/** The work content over `count` stations; `limit` is the shortest sum of task times from that share on. */
export interface WorkShareBound extends Certificate<"work-content"> {
  readonly workContent: number;
}

/** At the limit `shorter` a bound asks for more than `count` stations; no sum of task times lies between it and `limit`. */
export interface StationsBound extends Certificate<"stations"> {
  readonly shorter: number;
  readonly bound: Bound;
}

/** At the limit `shorter` every plan with `count` stations was ruled out; no sum of task times lies between it and `limit`. */
export interface ProbeBound extends Certificate<"search"> {
  readonly shorter: number;
  readonly nodes: number;
}

/** A proved lower bound on the longest station, with the facts an engineer needs to check it. */
export type LeastLimitBound = LongestTaskBound | WorkShareBound | StationsBound | ProbeBound;
