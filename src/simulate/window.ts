import type { Micros } from "../time/duration.js";

/** What is watched of a run, in microseconds from its start. */
export interface Window {
  readonly from: Micros;
  readonly to: Micros;
  /** Equal parts of it of which the course of the line is kept; ten unless said. */
  readonly slices?: number;
  /** How long a shift is; none are counted unless said. */
  readonly shift?: Micros;
}

/** Equal parts of what is watched, to show its course. */
export const SLICES = 10;

/** When a slice ends, in microseconds from the start of the run. */
export const sliceEnd = ({ from, to, slices = SLICES }: Window, slice: number): Micros =>
  slice === slices - 1 ? to : from + Math.floor(((to - from) * (slice + 1)) / slices);
