import { countOf, thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { CourseSlice, SimulationAnswer } from "../../simulate/simulation-answer.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesRoughlyIn } from "../../time/show-in-unit.js";
import {
  difference,
  lengthOf,
  numberShown,
  quotientShown,
  shownDifference,
} from "../../time/show-numbers.js";
import { decimal, percent, toMinutes } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import {
  BUFFERS_WORDS,
  helpWords,
  intervalWords,
  limitWords,
  moreWords,
  PACE_LIMITS,
  planToWords,
  repairWords,
  runWords,
  simulationWords,
} from "../words/simulate-words.js";
import { WAITS_WORDS } from "../words/simulated-benches-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph, titleText } from "./sections.js";
import { simulatedBenchesText, simulatedPartsText } from "./simulated-benches-text.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatOrFold } from "./table.js";

/** The whole answer of `simulate` for a person. */
export function simulateText(answer: SimulationAnswer, look: Look): string {
  const { line, plan } = answer;
  const parts = [
    `${titleText(line, look)}${paragraph(simulationWords(answer), look)}`,
    headed("stations", simulatedStationsText(answer, look), look),
    headed("between stations", simulatedBuffersText(answer, look), look),
    headed("tests and repair", paragraph(repairWords(answer), look), look),
    headed("as the hours go by", courseText(answer, look), look),
    ...simulatedBenchesText(answer, look),
    headed("parts", simulatedPartsText(answer, look), look),
    headed("what would help", whatHelpsText(answer, look), look),
    headed("how it was run", paragraph(runWords(answer), look), look),
    headed("what is left out", answer.leftOut.map(({ message }) => paragraph(message, look)).join(""), look),
    cautionText(cautionsOfPlan(line, plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** What was made beyond what is wanted, as the figures beside it say. */
const aheadOf = (made: Ratio, wanted: Ratio): string =>
  decimal(shownDifference(numberShown(decimal(made, 1)), numberShown(decimal(wanted, 1))), 1);

/** What is made and what is in the line, slice by slice. */
function courseText({ course }: SimulationAnswer, look: Look): string {
  const [first] = course as [CourseSlice];
  const most = course.reduce((one, two) => (difference(two.inLine, one.inLine) > 0 ? two : one)).inLine;
  const isPaced = first.wanted !== null;
  const right = (head: string): Column => ({ head, align: "right" });
  const length = look.width < ROOM_FOR_LONG_BARS ? SHORT_BAR : LONG_BAR;
  const bar = (inLine: CourseSlice["inLine"]) =>
    most.num === 0n ? "" : "■".repeat(lengthOf(quotientShown(inLine, most), length)).padEnd(length, "·");
  const table = formatOrFold(
    [
      right("until"),
      right("made"),
      ...(isPaced ? [right("wanted"), right("ahead")] : []),
      { head: "units in the line" },
    ],
    course.map(({ until, made, wanted, inLine }) => [
      toMinutes(until),
      decimal(made, 1),
      ...(wanted === null ? [] : [decimal(wanted, 1), aheadOf(made, wanted)]),
      `${bar(inLine)} ${decimal(inLine, 1)}`,
    ]),
    look.width,
  );
  return `${table}${paragraph(`Means of all replications, after the warm-up. ${isPaced ? "Made and wanted are good units up to then" : "Made are good units up to then"}; units in the line are those of each slice of time.`, look)}`;
}

/** Columns of the bar of the slice with most units in the line, and in narrow terminals. */
const [LONG_BAR, SHORT_BAR] = [24, 10];
const ROOM_FOR_LONG_BARS = 76;

/** Reruns with one thing changed, ranked by what they bring; empty where nobody asked. */
function whatHelpsText(answer: SimulationAnswer, look: Look): string {
  const { whatHelps, confidence, isRandom } = answer;
  if (whatHelps === null) return "";
  const { helps, changes, isEnded, planTo } = whatHelps;
  const table = formatOrFold(
    [
      { head: "change", wraps: true, narrowest: 12 },
      { head: "good units an hour", align: "right" },
      { head: "more", align: "right" },
    ],
    helps.map((help) => [
      visibleText(helpWords(help)),
      intervalWords(help.perHour),
      moreWords(help, isRandom),
    ]),
    look.width,
  );
  if (helps.length === 0 && answer.bottlenecks.length === 0) return paragraph(PACE_LIMITS, look);
  const words = isRandom
    ? `Each row is the line run again with one change and the same random numbers. What it brings is counted replication by replication, with its interval of ${percent(confidence)} confidence.`
    : "Each row is the line run again with one change. Nothing varies, so it is exact for these hours.";
  const ofPlanTo = planTo === null ? "" : paragraph(planToWords(planTo, answer), look);
  const ended = `Stopped after ${thousands(helps.length)} of ${countOf(changes, "change")}${helps.length < changes ? "" : ", before a plan-to was found"}.`;
  return `${helps.length === 0 ? "" : `${table}${paragraph(words, look)}`}${ofPlanTo}${isEnded ? paragraph(ended, look) : ""}`;
}

/** What each station does with its time. */
export function simulatedStationsText(
  { stations, benches, bottlenecks, lineCycle, canWait }: SimulationAnswer,
  look: Look,
): string {
  const paint = paintFor(look);
  const isPaced = lineCycle !== null;
  const table = formatOrFold(
    [
      { head: "station", givesWay: true },
      { head: "busy", align: "right" },
      ...(canWait ? [{ head: "waits", align: "right" as const }] : []),
      { head: "starved", align: "right" },
      { head: "blocked", align: "right" },
      { head: "down", align: "right" },
      ...(isPaced ? [{ head: "overruns", align: "right" as const }] : []),
      { head: "" },
    ],
    stations.map(({ id, shares, overrun }) => [
      visibleText(id),
      percent(shares.busy),
      ...(canWait ? [percent(shares.waiting)] : []),
      percent(shares.starved),
      percent(shares.blocked),
      percent(shares.down),
      ...(isPaced ? [overrun === null ? "-" : percent(overrun)] : []),
      bottlenecks.includes(id) ? limitWords(stations.length + benches.length, bottlenecks.length) : "",
    ]),
    look.width,
    (text, row) => (row < 0 ? paint.faint(text) : text),
  );
  const overruns = isPaced ? "; overruns: units that take longer than the line cycle leaves them" : "";
  const waits = canWait ? `${WAITS_WORDS}; ` : "";
  return `${table}${paragraph(`${waits}starved: no unit is there; blocked: its unit is done and cannot go on${overruns}. The rest of the time it is busy, or down.`, look)}`;
}

/** What lies between stations and how long it waits there; empty where nothing may. */
export function simulatedBuffersText({ buffers, line }: SimulationAnswer, look: Look): string {
  if (buffers.length === 0) return "";
  const right = (head: string): Column => ({ head, align: "right" });
  const table = formatOrFold(
    [
      { head: "after", givesWay: true },
      { head: "before", givesWay: true },
      right("room"),
      right("units"),
      right("most"),
      right("that wait"),
      right("wait"),
    ],
    buffers.map(({ after, before, size, mean, most, waiting, wait }) => [
      visibleText(after),
      visibleText(before),
      String(size),
      decimal(mean, 2),
      String(most),
      waiting === null ? "-" : percent(waiting),
      wait === null ? "-" : showTimesRoughlyIn(line.unit)(wait),
    ]),
    look.width,
  );
  return `${table}${paragraph(BUFFERS_WORDS, look)}`;
}
