/** Whole microseconds; exact up to 2^53. */
export type Micros = number;

export const TIME_UNITS = ["s", "min", "h", "cmin", "tmu"] as const;
export type TimeUnit = (typeof TIME_UNITS)[number];

/**
 * Whole microseconds in one unit. A cmin is a hundredth of a minute. A tmu is 0.00001 h = 0.036 s exactly
 * (units box of the MTM-1 data card).
 */
export const MICROS_IN: Readonly<Record<TimeUnit, Micros>> = {
  s: 1_000_000,
  min: 60_000_000,
  h: 3_600_000_000,
  cmin: 600_000,
  tmu: 36_000,
};

/** The unit of that name in any case of letters, or null. */
export function unitNamed(text: string): TimeUnit | null {
  return TIME_UNITS.find((unit) => unit === text.toLowerCase()) ?? null;
}
