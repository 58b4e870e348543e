import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import { cycleStepWords, reasonStepWords } from "../words/bound-words.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** The sums behind a proof that rests on other sums, one by one; parts or none. */
export function proofStepsText({ line, bound, level }: BalanceAnswer, look: Look): string[] {
  return [
    stepsText(
      "the sums behind the least stations",
      bound === null ? [] : reasonStepWords(line, bound.reason),
      look,
    ),
    stepsText(
      "the sums behind the even loads",
      level === null ? [] : cycleStepWords(line, level.reason),
      look,
    ),
  ].filter((part) => part !== "");
}

function stepsText(heading: string, steps: readonly string[], look: Look): string {
  return headed(heading, steps.map((step) => paragraph(step, look)).join(""), look);
}
