import type { BlockFlag } from "../../answer/off-line/off-line-flag.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import { NO_MARK } from "./long-answer-words.js";

/** What a block at a bench does, then its bench. */
export const blockFlagWords = (line: Line, flag: BlockFlag): string =>
  `${verdictWords(flag)}; ${blockDetails(line, flag)}`;

function verdictWords({ counted, peopleAfter, stationsBefore, stationsAfter }: BlockFlag): string {
  if (counted === null || stationsBefore === null) {
    return `makes a balance possible: ${countOf(stationsAfter, "station")} and ${countPeople(peopleAfter)} in all`;
  }
  const fewer = stationsBefore - stationsAfter;
  const shorter = fewer > 0 ? `the line is ${countOf(fewer, "station")} shorter` : "the line is no shorter";
  const { before, after, isOfDay } = counted;
  const change = after - before;
  const unit = isOfDay ? " a day" : "";
  if (change === 0) return `no gain in people: ${before} and ${after}${unit}; ${shorter}`;
  const figures = `${before} before, ${after} after${unit}; ${shorter}`;
  return change < 0
    ? `frees ${countPeople(-change)}: ${figures}`
    : `costs ${countPeople(change)} more: ${figures}`;
}

/** Beyond people and stations: bench, load, what is not certain. */
export function blockDetails(line: Line, { bench, stationsBefore, isDoubted, isGuess }: BlockFlag): string {
  const work = `${showTimesIn(line.unit)(bench.work)} of work at ${countOf(bench.places, "bench place")}`;
  const doubt = isDoubted
    ? `. The ${stationsBefore} stations before are not proved least, so the change is not certain`
    : "";
  const guess = isGuess ? `. A guess, ${NO_MARK}` : "";
  return `${work} (${percent(bench.load)} of the bench limit). One more buffer stock, between bench and line${doubt}${guess}`;
}
