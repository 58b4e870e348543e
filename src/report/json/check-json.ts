import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import type { Line } from "../../line/line.js";
import type { CheckedFile, CheckResult, JudgedFinding } from "../../plan/check/check-result.js";
import type { BenchOfPlan } from "../../plan/check/check-subject.js";
import { CAUTION } from "../cautions.js";
import { refusedOf } from "../ci/count-findings.js";
import { balanceAsJson } from "./balance-json.js";
import { findingJson } from "./finding-json.js";
import { secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/**
 * The result document of `check`: each plan as `balance` shows one, with its findings; `findings` beside them are those of the line
 * file and of plan files that could not be read.
 *
 * @param answers the plans of the result in the shape of `balance`, in the same order
 */
export function checkDocument(result: CheckResult, answers: readonly ShownBalance[]) {
  const { line, outcome, plans, findings } = result;
  return resultDocument("check", {
    line: line.name,
    outcome,
    plans: plans.map((plan, at) => planJson(plan, answers[at]!)),
    findings: [...findings, ...refusedOf(result)].map(judgedJson),
    caution: CAUTION,
  });
}

export const checkJson = asText(checkDocument);

function planJson(plan: CheckedFile, answer: ShownBalance) {
  const { file, line, benches, findings, isWrong } = plan;
  return {
    file,
    plan: {
      ...balanceAsJson(answer),
      benches: benchesJson(line, benches),
    },
    findings: findings.map(judgedJson),
    outcome: isWrong ? "wrong" : "fine",
  };
}

/** The benches of a plan, by the work on one unit of the line. */
export const benchesJson = (line: Line, benches: readonly BenchOfPlan[]) =>
  benches.map(({ bench, work, workingTime, people }) => ({
    id: bench.id,
    tasks: bench.tasks.map((task) => line.tasks[task]!.id),
    secondsPerUnit: secondsJson(work),
    workingSeconds: secondsJson(workingTime),
    places: bench.places,
    crew: bench.crew,
    people,
  }));

function judgedJson(each: JudgedFinding) {
  return { ...findingJson(each), known: each.known, fails: each.fails };
}
