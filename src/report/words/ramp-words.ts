import type { RampAnswer, UnitAndDay } from "../../answer/ramp/ramp-answer.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import { difference, shownDifference, sizeOf } from "../../time/show-numbers.js";
import { toMinutes } from "../../time/show-values.js";

/** "The pace is met on day 4, from unit 212. The 500 units take 6 days, and 31 h 12 min more work than at the times of the file." */
export function rampWords(answer: RampAnswer): string {
  const { paceFrom, units } = answer;
  const met =
    paceFrom === null
      ? notMetWords(answer)
      : paceFrom.unit === 1
        ? "The pace is met from the first unit."
        : `The pace is met ${paceFrom.day === null ? "" : `on day ${thousands(paceFrom.day)}, `}from unit ${thousands(paceFrom.unit)}.`;
  const takes = units === 1 ? "The unit takes" : `The ${thousands(units)} units take`;
  const days = answer.days === null ? "" : ` ${countOf(answer.days.length, "day")}, and`;
  const cut =
    units < answer.unitsAsked
      ? `Stopped after ${thousands(units)} of ${thousands(answer.unitsAsked)} units. `
      : "";
  return `${cut}${brokenWords(answer)}${met} ${takes}${days} ${moreWork(answer)}.`;
}

const brokenWords = ({ brokenRules }: RampAnswer): string =>
  brokenRules === 0
    ? ""
    : `The plan fails with ${countOf(brokenRules, "error")}; all figures are of its stations as they stand. `;

function notMetWords({ rows, units, line, pace, settled }: RampAnswer): string {
  const last = rows.at(-1)!;
  const [takes, wanted] = showTimesApart(line.unit, last.outputCycle, pace.lineCycle);
  const isHeld = difference(last.outputCycle, last.cycle) > 0;
  const who = isHeld ? "the line with its waits" : visibleText(last.slowest ?? "a station");
  const after = units === 1 ? "with one unit" : `within ${thousands(units)} units`;
  const later =
    settled !== null && settled.unit > units
      ? difference(settled.outputCycle, pace.lineCycle) > 0
        ? ` It never is: ${whenSettled(settled, line, pace)}.`
        : ` It will be by unit ${thousands(settled.unit)}, when the times are settled.`
      : "";
  return `The pace is not met ${after}: ${who} takes ${takes} for the last one, and the line cycle is ${wanted}.${later}`;
}

function whenSettled(
  settled: NonNullable<RampAnswer["settled"]>,
  line: RampAnswer["line"],
  pace: RampAnswer["pace"],
): string {
  const [takes] = showTimesApart(line.unit, settled.outputCycle, pace.lineCycle);
  const is =
    difference(settled.outputCycle, settled.cycle) > 0
      ? "waits hold the line to"
      : "the cycle of the plan is";
  return `settled at unit ${thousands(settled.unit)}, ${is} ${takes}`;
}

function moreWork({ batch, atStatedTimes }: RampAnswer): string {
  const more = shownDifference(batch.work, atStatedTimes.work);
  const turn = difference(batch.work, atStatedTimes.work);
  if (turn === 0) return "the work of the file's times";
  return `${toMinutes(sizeOf(more))} ${turn > 0 ? "more" : "less"} work than at the file's times`;
}

/**
 * "Until unit 140, S1 is held up by how long a unit stands there; more hands do not help, and none are counted.", a sentence for each.
 */
export const heldUpWords = ({ heldUp, units }: RampAnswer): string[] =>
  heldUp.map(({ id, by, from, to }) => {
    const what =
      by.kind === "dwell" ? "how long a unit stands there" : `how long a unit keeps ${visibleText(by.name)}`;
    const when =
      from === 1
        ? to === units
          ? "At every unit"
          : `Until unit ${thousands(to)}`
        : `From unit ${thousands(from)} to ${thousands(to)}`;
    return `${when}, ${visibleText(id)} is held up by ${what}; more hands do not help, and none are counted.`;
  });

/** "from unit 212, day 4"; "from the first unit"; "not yet". */
export function keepsPaceWords(paceFrom: UnitAndDay | null): string {
  if (paceFrom === null) return "not yet";
  if (paceFrom.unit === 1) return "from the first";
  return `unit ${thousands(paceFrom.unit)}${paceFrom.day === null ? "" : `, day ${thousands(paceFrom.day)}`}`;
}

/** What falls by the share at each doubling. */
export const LEARNED_BY_WORDS = {
  unit: "each unit (Crawford)",
  average: "mean of all so far (Wright)",
} as const;
