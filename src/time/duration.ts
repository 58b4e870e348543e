/** Whole microseconds; exact up to 2^53. */
export type Micros = number;

export const TIME_UNITS = ["s", "min", "h", "cmin", "tmu"] as const;
export type TimeUnit = (typeof TIME_UNITS)[number];
