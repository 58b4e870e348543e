import { eitherOf } from "../findings/list-of.js";
import { nearestNames } from "../findings/nearest.js";
import { LONGEST_TEXT, readNumber } from "./exact-number.js";
import { explainNumberSlip } from "./number-slips.js";
import { quoted } from "./quoted.js";
import type { Ratio } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";

export const PERIODS = ["hour", "shift", "day", "week", "month", "year"] as const;
export type Period = (typeof PERIODS)[number];

/** Good units wanted in a period. */
export interface Demand {
  readonly units: Ratio;
  readonly period: Period;
}

const PERIOD_LIST = eitherOf(PERIODS);

/** Words that people write for a period, with the period meant. */
const MEANT: Readonly<Record<string, Period>> = {
  h: "hour",
  hr: "hour",
  hourly: "hour",
  d: "day",
  dy: "day",
  dya: "day",
  daily: "day",
  wk: "week",
  weekly: "week",
  mo: "month",
  mth: "month",
  monthly: "month",
  y: "year",
  yr: "year",
  annum: "year",
  yearly: "year",
  annually: "year",
};

/** Good units in a period, such as `176 per day` or `9615.38 per week`: above 0, exact, never without its period. */
export function readDemand(text: string): Reading<Demand> {
  const trimmed = text.trim();
  if (trimmed === "") return refuse("a demand is missing: write it with its period, such as 176 per day");
  if (trimmed.length > LONGEST_TEXT) return refuse(`${quoted(trimmed)} is too long a text for a demand`);
  const found = /^(.*?)\s+per\s+(\S+)$/iu.exec(trimmed);
  const units = readNumber(found?.[1] ?? "");
  const period = PERIODS.find((each) => each === found?.[2]?.toLowerCase());
  if (readNumber(trimmed)?.num === 0n) {
    return refuse(`${quoted(trimmed)} is no demand: at least something above 0 is expected`);
  }
  if (units === null || period === undefined) {
    return refuse(`${quoted(trimmed)} is not a demand: ${explainDemandSlip(trimmed)}`);
  }
  if (units.num === 0n)
    return refuse(`${quoted(trimmed)} is no demand: at least something above 0 is expected`);
  return accept({ units, period });
}

function explainDemandSlip(text: string): string {
  const slip = explainNumberSlip(text);
  if (slip !== null) return slip;
  if (readNumber(text) !== null) return `it needs a period; write ${text} per ${PERIOD_LIST}`;
  const found =
    /^([\d.][\d. ½¼¾/⁄]*?)\s*(?:units?|pcs|pieces)?\s*(?:(?:per|a|an|each|every)\s|\/|(?=[a-z]))\s*(\p{L}+)$/iu.exec(
      text,
    );
  if (!found) return `write a number of good units and its period, such as 176 per day (${PERIOD_LIST})`;
  const period = meantPeriod(found[2]!);
  if (period !== null) return `write ${found[1]} per ${period}`;
  return `${quoted(found[2]!)} is no period; write ${found[1]} per ${PERIOD_LIST}`;
}

function meantPeriod(word: string): Period | null {
  const lower = word.toLowerCase();
  const singular = lower.replace(/s$/u, "");
  return (
    PERIODS.find((each) => each === lower || each === singular) ??
    MEANT[lower] ??
    MEANT[singular] ??
    nearestPeriod(lower)
  );
}

function nearestPeriod(word: string): Period | null {
  const [near] = nearestNames(word, PERIODS);
  return PERIODS.find((each) => each === near) ?? null;
}
