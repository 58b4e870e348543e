import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal, longTime } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import { cautionText } from "./cautions-text.js";
import { modelsText } from "./models-text.js";
import { needsText } from "./needs-text.js";
import { offLineText } from "./off-line-text.js";
import { paceText } from "./pace-text.js";
import { methodsText, proofText } from "./proof-text.js";
import { ratesText } from "./rates-text.js";
import { resultText } from "./result-text.js";
import { headed, paragraph, scopeText, titleText } from "./sections.js";
import { stationsText } from "./stations-text.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";
import { testsText } from "./tests-text.js";
import { crewsText, kindsOfTimeText, peaksText, seldomText, sidesText } from "./work-text.js";

/** The whole answer of `balance` for a person. Empty parts are left out; ends in a newline. */
export function balanceText(answer: ShownBalance, look: Look): string {
  const { line } = answer;
  const parts = [
    `${titleText(line, look)}${scopeText(line, answer.shown, look)}\n`,
    headed("pace", paceText(answer, look), look),
    headed("stations", stationsText(answer, look), look),
    headed("sides", sidesText(answer, look), look),
    headed("people who share a unit", crewsText(answer, look), look),
    headed("hands, walking and machine time", kindsOfTimeText(answer, look), look),
    headed("work of some units only", seldomText(answer, look), look),
    headed("result", resultText(answer, look), look),
    headed("tests and repair", testsText(answer, look), look),
    headed("waiting between tasks", waitsText(answer, look), look),
    headed("models", modelsText(answer, look), look),
    headed("units that take longer", peaksText(answer, look), look),
    headed("what the stations need", needsText(answer, look), look),
    headed("proof", proofText(answer, look), look),
    headed("with more or fewer stations", ratesText(answer, look), look),
    headed("what each method got", methodsText(answer, look), look),
    headed("off the line", offLineText(answer, look), look),
    cautionText(cautionsOfPlan(line, answer.plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** Units that only wait between two tasks, the fixtures that hold them, and what that adds to the lead time. */
function waitsText({ line, measures }: BalanceAnswer, look: Look): string {
  if (measures === null || measures.waiting === null || measures.leadTimeOfWaits === null) return "";
  const id = (task: number) => visibleText(line.tasks[task]!.id);
  const rows = measures.waiting.map(({ wait, units, fixtures }) => [
    `${id(wait.from)} -> ${id(wait.to)}`,
    longTime(wait.wait),
    decimal(units, 2),
    String(fixtures),
  ]);
  const columns: Column[] = [
    { head: "between", wraps: true, narrowest: 8 },
    { head: "wait", align: "right" },
    { head: "units", align: "right" },
    { head: "fixtures", align: "right" },
  ];
  const show = showTimesIn(line.unit);
  const added = `Waiting takes nobody's time; it adds ${show(measures.leadTimeOfWaits)} to the lead time.`;
  return `${formatTable(columns, rows, look.width)}${paragraph(added, look)}`;
}
