import type { RampAnswer } from "../../answer/ramp/ramp-answer.js";
import type { Sheet, SheetCell } from "../../table/sheet.js";
import { plainNumber, secondsNumber } from "../../time/show-numbers.js";
import { CAUTION, cautionsOfPlan, cautionWords } from "../cautions.js";
import { heldUpWords } from "../words/ramp-words.js";

/** One row a unit that is shown, with a column for each station; times in seconds. The cautions follow. */
export function rampSheet(answer: RampAnswer): Sheet {
  const { posts, rows, line, plan } = answer;
  const heads = [
    "unit",
    "day",
    "cycle of the plan (s)",
    "slowest station",
    "stations over the pace",
    "extra people",
  ];
  return [
    [...heads, ...posts.map(({ id }) => `${id} (s)`)].map(text),
    ...rows.map(({ unit, day, cycle, slowest, times, overPace, extraHands }) => [
      number(unit),
      day === null ? null : number(day),
      number(secondsNumber(cycle)),
      slowest === null ? null : text(slowest),
      number(overPace),
      number(plainNumber(extraHands)),
      ...times.map((own) => number(secondsNumber(own))),
    ]),
    ...heldUpWords(answer).map((each) => [text("extra people"), text(each)]),
    [text("caution"), text(CAUTION)],
    ...cautionsOfPlan(line, plan).map((each) => [text("caution"), text(cautionWords(each))]),
  ];
}

const text = (words: string): SheetCell => ({ text: words });
const number = (value: number): SheetCell => ({ number: String(value) });
