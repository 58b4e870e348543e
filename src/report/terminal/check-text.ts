import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import { formatInOrder } from "../../findings/format-findings.js";
import { visibleText } from "../../findings/visible-text.js";
import type { CheckedFile, CheckResult, JudgedFinding } from "../../plan/check/check-result.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import { cautionsOfPlans } from "../cautions.js";
import { countWords, refusedOf, shownOfLine, summaryWords } from "../ci/count-findings.js";
import { cautionText } from "./cautions-text.js";
import { type Look, paintFor } from "./style.js";

/** Each plan with its verdict and its findings, then how many there are; `sources` holds the text of each file by its name. */
export function checkText(
  result: CheckResult,
  answers: readonly ShownBalance[],
  sources: ReadonlyMap<string, string>,
  look: Look,
): string {
  const { line, plans, isLineWrong } = result;
  const findings = shownOfLine(result);
  const ofLine =
    findings.length === 0
      ? []
      : [
          `${heading(line.file, { findings, isWrong: isLineWrong }, "", look)}${findingsText(findings, sources, look)}`,
        ];
  const ofPlans = plans.map(
    (plan, at) =>
      `${heading(plan.file, plan, figures(answers[at]!), look)}${findingsText(plan.findings, sources, look)}`,
  );
  const isMany = plans.length + refusedOf(result).length + findings.length > 1;
  const summary = isMany ? [`${summaryWords(result)}\n`] : [];
  const cautions = plans.length === 0 ? [] : [cautionText(cautionsOfPlans(plans), look)];
  return [...ofLine, ...ofPlans, ...cautions, ...summary].join("\n");
}

/** Findings in their own order, each with its source line. */
export function findingsText(
  findings: readonly JudgedFinding[],
  sources: ReadonlyMap<string, string>,
  look: Look,
): string {
  const told = findings.map((each) =>
    each.known === true ? { ...each, message: `${each.message} (as before)` } : each,
  );
  return formatInOrder(told, sources, look.width);
}

function heading(
  file: string,
  { findings, isWrong }: Pick<CheckedFile, "findings" | "isWrong">,
  what: string,
  look: Look,
): string {
  const paint = paintFor(look);
  const isKnown = findings.some(({ known }) => known === true);
  const verdict = isWrong ? paint.bad("fails") : paint.good(isKnown ? "no worse than before" : "holds");
  const told = [countWords(findings), what].filter((part) => part !== "").join("; ");
  return `${paint.strong(visibleText(file))}: ${verdict}${told === "" ? "" : `: ${told}`}\n`;
}

/** "3 stations, 5 people (1 for repairs), efficiency 91.2 % at the pace, cycle of the plan 58 s". */
function figures({ line, measures, stations, shown: { people: all } }: ShownBalance): string {
  if (measures === null || all === null) return countOf(stations.length, "station");
  const { efficiencyAtPace, cycleOfPlan, slowestStation } = measures;
  const { atATime, repair } = all;
  const repairs = repair === 0 ? "" : ` (${repair} for repairs)`;
  const people = `${countPeople(atATime)}${repairs}`;
  const efficiency = efficiencyAtPace === null ? [] : [`efficiency ${percent(efficiencyAtPace)} at the pace`];
  const slowest = `cycle of the plan ${showTimesIn(line.unit)(cycleOfPlan)} at ${visibleText(slowestStation)}`;
  return [countOf(stations.length, "station"), people, ...efficiency, slowest].join(", ");
}
