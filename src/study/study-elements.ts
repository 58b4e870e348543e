import { type Finding, finding } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { quoted } from "../time/quoted.js";
import { compare, divide, multiply, ONE, type Ratio, ratio, sum } from "../time/ratio.js";
import { normalQuantile, studentQuantile } from "./quantiles.js";
import type { ReadElement, Readings } from "./readings.js";
import { runWatch, type TimedReading } from "./run-watch.js";
import {
  lowestRepeated,
  meanOf,
  medianOf,
  oddValues,
  readingsNeeded,
  squareRoot,
  varianceOf,
} from "./statistics.js";
import { allowanceFactor, allowanceInAll, type StudyTerms } from "./study-terms.js";

/** A reading in the picture of its element. */
export interface ShownReading {
  readonly time: Ratio;
  readonly isLeftOut: boolean;
  readonly isOdd: boolean;
}

/** An element as studied; times of one time that it is done, in microseconds. */
export interface StudiedElement {
  readonly name: string;
  /** The task that it is a part of, or its own name. */
  readonly task: string;
  readonly every: number;
  /** Readings that count, and those that do not. */
  readonly readings: number;
  readonly leftOut: number;
  /** By the statistic that was asked for. */
  readonly observed: Ratio;
  readonly mean: Ratio;
  /** Of the unrated readings, with n - 1, to a millionth of a microsecond; null for one reading. */
  readonly deviation: Ratio | null;
  /** Normal / observed: the rating itself where all readings have the same. */
  readonly rating: Ratio;
  readonly isRatedAlike: boolean;
  readonly normal: Ratio;
  readonly standard: Ratio;
  /** Null for one reading. */
  readonly needed: NeededReadings | null;
  readonly shown: readonly ShownReading[];
  /** The mean of each observer, where there are several. */
  readonly observers: readonly { readonly name: string; readonly readings: number; readonly mean: Ratio }[];
}

export interface NeededReadings {
  readonly readings: number;
  readonly by: "t" | "z";
  readonly quantile: Ratio;
}

/** A time study: facts only. */
export interface Study {
  readonly file: string;
  readonly read: Pick<Readings, "unit" | "decimalMark" | "layout" | "table">;
  readonly terms: StudyTerms;
  readonly elements: readonly StudiedElement[];
  /** Sums over the elements, each / the units that it is done on. */
  readonly normal: Ratio;
  readonly standard: Ratio;
  /** All allowances together. */
  readonly allowance: Ratio;
  readonly factor: Ratio;
}

export interface StudyReading {
  /** Null where an error keeps a time from being worked out. */
  readonly study: Study | null;
  readonly findings: readonly Finding[];
}

/** From here on the normal distribution is near enough to Student's. */
const MANY = 30;

/** Works out observed, normal and standard times of readings. */
export function studyElements(readings: Readings, terms: StudyTerms): StudyReading {
  const { file } = readings;
  const watch = runWatch(file, readings.elements, terms.clock);
  const findings = [...watch.findings];
  if (findings.some(({ severity }) => severity === "error")) return { study: null, findings };
  const studied = readings.elements.map((element, at) => {
    const result = studyElement(file, element, watch.elements[at]!, terms);
    findings.push(...result.findings);
    return result.element;
  });
  const elements = studied.filter((each) => each !== null);
  if (elements.length < studied.length) return { study: null, findings };
  const perUnit = (timeOf: (element: StudiedElement) => Ratio) =>
    sum(elements.map((each) => divide(timeOf(each), ratio(each.every))));
  const study = {
    file,
    read: readings,
    terms,
    elements,
    normal: perUnit(({ normal }) => normal),
    standard: perUnit(({ standard }) => standard),
    allowance: allowanceInAll(terms.allowances),
    factor: allowanceFactor(terms),
  };
  return { study, findings };
}

/** A reading that counts. */
interface Counted {
  readonly reading: TimedReading;
  readonly time: Ratio;
  readonly rating: Ratio;
}

function studyElement(
  file: string,
  element: ReadElement,
  timed: readonly TimedReading[],
  terms: StudyTerms,
): { readonly element: StudiedElement | null; readonly findings: readonly Finding[] } {
  const { name, place } = element;
  const counted = timed.flatMap((reading): Counted[] => {
    if (reading.isLeftOut || reading.time === null) return [];
    const rating = reading.taken.rating ?? terms.rating ?? ONE;
    return [{ reading, time: ratio(reading.time), rating }];
  });
  const refuse = (rule: string, message: string) => ({
    element: null,
    findings: [finding({ rule, severity: "error", message, file, place })],
  });
  if (counted.length === 0) return refuse("no-readings", `every reading of ${quoted(name)} is left out`);
  const times = counted.map(({ time }) => time);
  const rated = counted.map(({ time, rating }) => multiply(time, rating));
  const [observed, normal] = [statisticOf(times, terms), statisticOf(rated, terms)];
  if (observed === null || normal === null) {
    const message = `no reading of ${quoted(name)} comes twice, so there is no lowest repeated one; give --statistic mean or median`;
    return refuse("nothing-repeats", message);
  }
  const variance = varianceOf(times);
  const mean = meanOf(times);
  const odd = oddValues(times);
  const oddReadings = new Set(counted.filter((_, at) => odd[at]).map(({ reading }) => reading));
  const first = counted[0]!.rating;
  const studied: StudiedElement = {
    name,
    task: element.task ?? name,
    every: element.every,
    readings: counted.length,
    leftOut: timed.length - counted.length,
    observed,
    mean,
    deviation: variance === null ? null : squareRoot(variance),
    rating: divide(normal, observed),
    isRatedAlike: counted.every(({ rating }) => compare(rating, first) === 0),
    normal,
    standard: multiply(normal, allowanceFactor(terms)),
    needed: variance === null ? null : needed(counted.length, variance, mean, terms),
    shown: timed.flatMap((reading) =>
      reading.time === null
        ? []
        : [{ time: ratio(reading.time), isLeftOut: reading.isLeftOut, isOdd: oddReadings.has(reading) }],
    ),
    observers: observersOf(counted),
  };
  return { element: studied, findings: pointOut(file, element, [...oddReadings]) };
}

function statisticOf(values: readonly Ratio[], { statistic }: StudyTerms): Ratio | null {
  if (statistic === "mean") return meanOf(values);
  return statistic === "median" ? medianOf(values) : lowestRepeated(values);
}

function needed(
  count: number,
  variance: Ratio,
  mean: Ratio,
  { by, confidence, within }: StudyTerms,
): NeededReadings {
  const used = by ?? (count < MANY ? "t" : "z");
  const quantile = used === "t" ? studentQuantile(confidence, count - 1) : normalQuantile(confidence);
  const time = "share" in within ? multiply(within.share, mean) : ratio(within.time);
  return { readings: readingsNeeded(variance, quantile, time), by: used, quantile };
}

function observersOf(counted: readonly Counted[]): StudiedElement["observers"] {
  const byObserver = new Map<string | null, Ratio[]>();
  for (const { reading, time } of counted) {
    const { observer } = reading.taken;
    const times = byObserver.get(observer) ?? [];
    byObserver.set(observer, times);
    times.push(time);
  }
  if (byObserver.size < 2) return [];
  return [...byObserver].map(([observer, times]) => ({
    name: observer ?? "",
    readings: times.length,
    mean: meanOf(times),
  }));
}

/** Odd readings are pointed out and kept: whoever stood there knows whether they were foreign to the work. */
function pointOut(file: string, { name }: ReadElement, odd: readonly TimedReading[]): Finding[] {
  const [first] = odd;
  if (first === undefined) return [];
  const where = listOf(odd.map(({ taken }) => taken.address));
  const message = `${quoted(name)}: odd ${odd.length === 1 ? "reading" : "readings"} in ${where}, kept; --picture shows ${odd.length === 1 ? "it" : "them"} among the others. If the work was disturbed, mark the reading and give --leave-out`;
  return [finding({ rule: "odd-reading", severity: "warning", message, file, place: first.taken.place })];
}
