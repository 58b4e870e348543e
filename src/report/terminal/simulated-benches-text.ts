import { visibleText } from "../../findings/visible-text.js";
import type { SimulatedBench } from "../../simulate/simulated-benches.js";
import type { SimulationAnswer } from "../../simulate/simulation-answer.js";
import { lengthOf, numberShown, quotientShown, signOf } from "../../time/show-numbers.js";
import { decimal, percent } from "../../time/show-values.js";
import { benchWords, courseWords, partsWords } from "../words/simulated-benches-words.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatOrFold } from "./table.js";

const right = (head: string): Column => ({ head, align: "right" });

/** What each bench does, and the stock before the line in the course of the day; empty without benches. */
export function simulatedBenchesText({ benches }: SimulationAnswer, look: Look): string[] {
  if (benches.length === 0) return [];
  const table = formatOrFold(
    [
      { head: "bench", givesWay: true },
      right("busy"),
      right("blocked"),
      right("sets/h"),
      right("stock"),
      right("least"),
      right("greatest"),
    ],
    benches.map(({ id, shares, perHour, mean, least, greatest }) => [
      visibleText(id),
      percent(shares.busy),
      percent(shares.blocked),
      decimal(perHour, 2),
      mean === null ? "-" : decimal(mean, 1),
      least === null ? "-" : String(least),
      greatest === null ? "-" : String(greatest),
    ]),
    look.width,
  );
  const words =
    "Shares and sets are of the hours that the bench works. A set is the parts of one unit; stock is sets that lie before the line. blocked: the room is full.";
  return [
    headed("benches", `${table}${paragraph(words, look)}`, look),
    ...benches.map((bench) => headed(`stock of ${visibleText(bench.id)}`, stockText(bench, look), look)),
  ];
}

/** Columns of the bar of a full room, and in narrow terminals. */
const [LONG_BAR, SHORT_BAR] = [20, 10];
const ROOM_FOR_LONG_BARS = 76;

function stockText(bench: SimulatedBench, look: Look): string {
  const { course, room, isByHour } = bench;
  const bar = look.width < ROOM_FOR_LONG_BARS ? SHORT_BAR : LONG_BAR;
  const works = (line: boolean, own: boolean) => (line && own ? "both" : line ? "line" : "bench");
  const table = formatOrFold(
    [
      { head: isByHour ? "from" : "until", align: "right" },
      ...(isByHour ? [{ head: "at work" }] : []),
      right("least"),
      right("greatest"),
      { head: "mean" },
    ],
    course
      .filter(({ mean }) => mean !== null)
      .map((each) => {
        const length = lengthOf(quotientShown(each.mean!, numberShown(String(room))), bar);
        return [
          courseWords(bench, each),
          ...(isByHour ? [works(each.isLineAtWork, each.isBenchAtWork)] : []),
          String(each.least),
          String(each.greatest),
          `${"■".repeat(length).padEnd(bar, "·")} ${decimal(each.mean!, 1)}`,
        ];
      }),
    look.width,
  );
  return `${table}${paragraph(benchWords(bench), look)}`;
}

/** The parts that units waited for; empty where no containers are followed. */
export function simulatedPartsText({ parts }: SimulationAnswer, look: Look): string {
  if (parts.length === 0) return "";
  const short = parts.filter(({ waiting }) => signOf(waiting) > 0);
  const words = paragraph(partsWords(parts.length, short.length), look);
  if (short.length === 0) return words;
  const table = formatOrFold(
    [
      { head: "station", givesWay: true },
      { head: "part", givesWay: true },
      right("containers"),
      right("pack"),
      right("units waiting"),
    ],
    short.map(({ station, id, containers, pack, waiting }) => [
      visibleText(station),
      visibleText(id),
      String(containers),
      String(pack),
      decimal(waiting, 3),
    ]),
    look.width,
  );
  return `${table}${words}`;
}
