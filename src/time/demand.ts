import type { Ratio } from "./ratio.js";

export const PERIODS = ["hour", "shift", "day", "week", "month", "year"] as const;
export type Period = (typeof PERIODS)[number];

/** Good units wanted in a period. */
export interface Demand {
  readonly units: Ratio;
  readonly period: Period;
}
