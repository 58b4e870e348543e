import { answerOption } from "../../../../src/answer/compare/answer-option.js";
import {
  type Comparison,
  compareOptions,
  ONE_BY_ONE,
} from "../../../../src/answer/compare/compare-options.js";
import { lineOfOption } from "../../../../src/answer/compare/line-of-option.js";
import type { AskedOption, OptionAnswer } from "../../../../src/answer/compare/option-answer.js";
import { optionFacts } from "../../../../src/answer/compare/option-facts.js";
import type { Line } from "../../../../src/line/line.js";
import { AS_IT_IS } from "../../../../src/line/line.js";
import type { Plan } from "../../../../src/plan/plan.js";
import { notesOf as optionNotes } from "../../../../src/report/compare-notes.js";
import { taktSum } from "../../../../src/time/takt.js";

const goOn = async () => null;

/** An option of the line as a command asks for it; the line as it is without a name. */
export function asked(line: Line, name = AS_IT_IS, today: Plan | null = null): AskedOption {
  const option = line.options.find((each) => each.name === name) ?? null;
  const changed = option === null ? line : lineOfOption(line, option);
  const takt = taktSum({ ...changed, demand: changed.demand! });
  if (!takt.ok) throw new Error(takt.problem);
  return { name, line: changed, option, pace: takt.value.pace, takt: takt.value, today, nodes: 100_000 };
}

export const answerOf = (line: Line, name?: string, today: Plan | null = null): Promise<OptionAnswer> =>
  answerOption(asked(line, name, today), goOn);

/** The line as it is and its options, or those of these names. */
export function compared(line: Line, names?: readonly string[]): Promise<Comparison> {
  const columns = names ?? [AS_IT_IS, ...line.options.map(({ name }) => name)];
  return compareOptions(
    line,
    columns.map((name) => asked(line, name)),
    { ...ONE_BY_ONE, watch: goOn },
  );
}

/** The bike of the check values: 450 units in a shift of 27,000 s at 60 s, a wheel that may be built at benches. */
export const WHEEL = [
  "line: Cargo bike",
  "unit: s",
  "demand: 450 per day",
  "calendar: {shifts: {early: {length: 7.5 h}}}",
  "benches: {wheels: {tasks: [lace, true], shifts: 2}}",
  "tasks:",
  "  frame: {time: 30, on-base: true}",
  "  lace: 40",
  "  true: {time: 55, after: lace}",
  "  fit: {time: 20, after: [frame, true]}",
  "  brake: {time: 35, after: fit}",
  "",
].join("\n");

/** The notes of an option by itself, as reports write them. */
export const notesOf = (answer: OptionAnswer): string[] => optionNotes(answer, optionFacts([answer])[0]!);
