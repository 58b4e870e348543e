import { thousands } from "../findings/count-of.js";
import { ceiling, compare, floor, multiply, type Ratio, ratio, toDecimal } from "./ratio.js";
import { MICROS_IN, type Micros, type TimeUnit } from "./units.js";

/*
 * The one form in which values are shown to people:
 *   pace and station times  seconds with up to 3 decimals       136.418 s
 *   calendar times          hours, minutes, seconds, no zeros   7 h 5 min
 *   shares                  per cent with up to 1 decimal       94 %
 * Rounded half up, without trailing zeros, always with a point. Machines get seconds with 6 decimals instead.
 */

const exact = (value: Ratio | Micros): Ratio => (typeof value === "number" ? ratio(value) : value);

/** Up to the given decimals, without trailing zeros, a comma before each three digits: 7.5, 27,300, 0.046. */
export const decimal = (value: Ratio | number, decimals: number): string =>
  grouped(plainDecimal(value, decimals));

/** The same without commas, as files and options take it: 27300. */
export function plainDecimal(value: Ratio | number, decimals: number): string {
  const text = toDecimal(exact(value), decimals);
  return withoutMinusZero(text.includes(".") ? text.replace(/\.?0+$/u, "") : text);
}

/** A number that is then rounded to a whole one, with as many decimals as show that it is none yet: "2.04", "2.0014". */
export function beforeRounding(value: Ratio, fewest = 2): string {
  let decimals = fewest;
  while (value.den !== 1n && !decimal(value, decimals).includes(".")) decimals += 2;
  return decimal(value, decimals);
}

/**
 * Values that one sentence compares, with as many decimals as tell those apart that differ: `fewest`, or more by `step`. Rounding keeps
 * the order of values, so what is shown as more is more.
 */
export function showApart(
  values: readonly Ratio[],
  show: (value: Ratio, decimals: number) => string,
  { fewest, step }: { readonly fewest: number; readonly step: number },
): string[] {
  for (let decimals = fewest; ; decimals += step) {
    const shown = values.map((value) => show(value, decimals));
    const isApart = values.every((value, at) =>
      values.every((other, next) => shown[at] !== shown[next] || compare(value, other) === 0),
    );
    if (isApart) return shown;
  }
}

/** A time in microseconds as a number of that unit with exactly so many decimals, for columns: "2.27". */
export function inUnit(value: Ratio | Micros, unit: TimeUnit, decimals: number): string {
  return grouped(withoutMinusZero(toDecimal(multiply(exact(value), ratio(1, MICROS_IN[unit])), decimals)));
}

/** A time in microseconds in seconds: "136.418 s". */
export const seconds = (value: Ratio | Micros): string => grouped(plainSeconds(value));

/** The same without commas, as files take it. */
export const plainSeconds = (value: Ratio | Micros): string =>
  `${plainDecimal(multiply(exact(value), ratio(1, MICROS_IN.s)), 3)} s`;

/** A long time in microseconds, to the nearest millisecond, without parts of 0: "7 h 5 min", "1 min 30.5 s", "0 min". */
export function longTime(value: Ratio | Micros): string {
  const thousandths = BigInt(toDecimal(multiply(exact(value), ratio(1, 1000)), 0));
  const size = thousandths < 0n ? -thousandths : thousandths;
  const parts: readonly (readonly [string, string])[] = [
    [thousands(size / 3_600_000n), "h"],
    [String((size / 60_000n) % 60n), "min"],
    [decimal(ratio(size % 60_000n, 1000), 3), "s"],
  ];
  const shown = parts.filter(([amount]) => amount !== "0").map(([amount, unit]) => `${amount} ${unit}`);
  return `${thousandths < 0n ? "-" : ""}${shown.join(" ") || "0 min"}`;
}

/** A time that must be worked, up to the next whole minute: "5 h", "8 h 4 min". */
export const upToMinutes = (needed: Ratio): string => minutes(ceiling(inMinutes(needed)));

/** A time that is saved, down to the last whole minute. */
export const downToMinutes = (saved: Ratio): string => minutes(floor(inMinutes(saved)));

/** A time to the nearest whole minute. */
export const toMinutes = (time: Ratio | Micros): string =>
  minutes(BigInt(toDecimal(inMinutes(exact(time)), 0)));

const MINUTE = MICROS_IN.min;
const minutes = (count: bigint): string => longTime(ratio(count * BigInt(MINUTE)));
const inMinutes = (time: Ratio): Ratio => multiply(time, ratio(1, MINUTE));

/** "06:00": a time of day, of microseconds since a midnight; the next day begins with 00:00 again. */
export function clockOfDay(time: Micros): string {
  const minutes = Math.floor(time / MICROS_IN.min) % (24 * 60);
  return [Math.floor(minutes / 60), minutes % 60].map((each) => String(each).padStart(2, "0")).join(":");
}

/** A time in hours with decimals, as people add them up: "7.08 h". */
export const decimalHours = (time: Ratio): string => `${decimal(multiply(time, ratio(1, MICROS_IN.h)), 2)} h`;

/** A number of hours as a time: "1 h 30 min". */
export const longTimeOfHours = (hours: Ratio): string => longTime(multiply(hours, ratio(MICROS_IN.h)));

/** An amount of money with both decimals, or more, and its currency where that has a name: "12.50 EUR". */
export const money = (amount: Ratio, currency: string | null, decimals = 2): string =>
  `${grouped(toDecimal(amount, decimals))}${currency === null ? "" : ` ${currency}`}`;

/** A share: "94 %", "87.1 %". */
export function percent(share: Ratio, decimals = 1): string {
  return `${decimal(multiply(share, ratio(100)), decimals)} %`;
}

/** Shares that one sentence compares, with as many decimals as tell those apart that differ. */
export const percentsApart = (...shares: readonly Ratio[]): string[] =>
  showApart(shares, percent, { fewest: 1, step: 1 });

/** A share of all there is, with so many decimals that nothing but all is shown as 100 %. */
export const percentOfAll = (share: Ratio): string => percentsApart(share, ratio(1))[0]!;

const NEARLY_ALL = ratio(9999, 10_000);

/**
 * A chance beside the one that is asked, with so many decimals that those which differ look different, and nothing but all is 100 %: "98.7 %".
 * Nearer to all than anybody needs is "> 99.99 %", unless as much is asked.
 */
export function chanceBeside(chance: Ratio, asked: Ratio): string {
  const isNearlyAll = compare(chance, NEARLY_ALL) > 0 && compare(chance, ratio(1)) < 0;
  if (isNearlyAll && compare(asked, NEARLY_ALL) < 0) return `> ${percent(NEARLY_ALL, 2)}`;
  return percentsApart(chance, asked, ratio(1))[0]!;
}

/** A share by which something may grow, rounded down to one decimal: "4.8 %". */
export const percentDown = (share: Ratio): string =>
  percent(ratio(floor(multiply(share, ratio(1000))), 1000));

/** "one part in 1,000,000". */
export const onePartIn = (parts: bigint): string => `one part in ${thousands(parts)}`;

/** The digits before the point in threes. */
const grouped = (text: string): string => text.replace(/\d+/u, thousands);

function withoutMinusZero(text: string): string {
  return /^-[0.]*$/u.test(text) ? text.slice(1) : text;
}
