import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** The sums behind a proof that rests on other sums, one by one; parts or none. */
export function proofStepsText({ bound, level }: BalanceAnswer, look: Look): string[] {
  return [
    stepsText("the sums behind the least stations", bound?.steps ?? [], look),
    stepsText("the sums behind the even loads", level?.steps ?? [], look),
  ].filter((part) => part !== "");
}

function stepsText(heading: string, steps: readonly string[], look: Look): string {
  return headed(heading, steps.map((step) => paragraph(step, look)).join(""), look);
}
