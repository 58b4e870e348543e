import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { countOf } from "../../findings/count-of.js";
import { tells } from "../../findings/finding.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { BenchOfPlan } from "../../plan/check/check-subject.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal, longTime } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import { answerWords, failsWords, figuresWords, provedWords } from "../words/answer-words.js";
import { cautionsInShort, cautionText } from "./cautions-text.js";
import { modelsText } from "./models-text.js";
import { needsText } from "./needs-text.js";
import { offLineText } from "./off-line-text.js";
import { paceKeptText } from "./pace-kept-text.js";
import { paceText } from "./pace-text.js";
import { methodsText, proofText } from "./proof-text.js";
import { ratesText } from "./rates-text.js";
import { resultText } from "./result-text.js";
import { headed, paragraph, scopeText, titleText } from "./sections.js";
import { stationsText, taskNamesText } from "./stations-text.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";
import { testsText } from "./tests-text.js";
import { crewsText, kindsOfTimeText, peaksText, seldomText, sidesText } from "./work-text.js";

/**
 * The answer of `balance` for a person: the answer in a few lines, the stations and what to do. `isFull` adds what most people do not ask
 * for: every figure with what it is measured against, the sums of the pace, what stations need, proofs and what methods got. Empty parts
 * are left out; ends in a newline.
 *
 * @param benches of a plan that stands
 */
export function balanceText(
  answer: ShownBalance,
  isFull: boolean,
  look: Look,
  benches: readonly BenchOfPlan[] = [],
): string {
  const { line, measures } = answer;
  const full = (heading: string, text: (whole: ShownBalance, look: Look) => string) =>
    isFull ? headed(heading, text(answer, look), look) : "";
  const scope = isFull ? `${scopeText(line, answer.shown, look)}\n` : "";
  const parts = [
    `${titleText(line, look)}${scope}${answerText(answer, isFull, look)}`,
    measures === null ? headed("result", resultText(answer, look), look) : "",
    isFull || measures === null ? headed("pace", paceText(answer, look), look) : "",
    headed("stations", stationsText(answer, isFull, look), look),
    headed("chance to keep the pace", paceKeptText(answer, look), look),
    headed("benches", benchesText(answer, benches, look), look),
    headed("sides", sidesText(answer, look), look),
    headed("people who share a unit", crewsText(answer, look), look),
    full("hands, walking and machine time", kindsOfTimeText),
    headed("work of some units only", seldomText(answer, look), look),
    headed("fewer people with a shared crew", couldShareText(answer, look), look),
    headed("off the line", offLineText(answer, isFull, look), look),
    measures === null ? "" : full("result", resultText),
    full("tests and repair", testsText),
    headed("waiting between tasks", waitsText(answer, look), look),
    headed("models", modelsText(answer, look), look),
    headed("units that take longer", peaksText(answer, look), look),
    full("what the stations need", needsText),
    full("tasks by name", (whole) =>
      taskNamesText(
        whole,
        benches.map(({ bench }) => bench),
        look,
      ),
    ),
    headed("with more or fewer stations", ratesText(answer, look), look),
    full("proof", proofText),
    full("what each method got", methodsText),
    (isFull ? cautionText : cautionsInShort)(cautionsOfPlan(line, answer.plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** The answer in a line; where nothing else tells the figures and what is proved, a line for each of these. */
function answerText(answer: ShownBalance, isFull: boolean, look: Look): string {
  const told = [
    failsWords(answer),
    answerWords(answer),
    ...(isFull ? [] : [...figuresWords(answer), provedWords(answer)]),
  ];
  return told.map((words) => paragraph(words, look)).join("");
}

/** Where people of a place who share the work of a unit would be fewer. */
const couldShareText = ({ findings }: ShownBalance, look: Look): string =>
  findings
    .filter((each) => tells(each, "could-share"))
    .map(({ message }) => paragraph(`${message}.`, look))
    .join("");

/** What benches of a plan build, by the work on one unit against their working time. */
function benchesText({ line }: BalanceAnswer, benches: readonly BenchOfPlan[], look: Look): string {
  const show = showTimesIn(line.unit);
  const rows = benches.map(({ bench, work, workingTime, people }) => [
    visibleText(bench.id),
    bench.tasks.map((task) => visibleText(line.tasks[task]!.id)).join(", "),
    String(people),
    String(bench.places),
    show(work),
    show(workingTime),
  ]);
  const columns: Column[] = [
    { head: "bench" },
    { head: "tasks in order of work", wraps: true, narrowest: 8 },
    { head: "people", align: "right" },
    { head: "places", align: "right" },
    { head: "time", align: "right" },
    { head: "working time", align: "right", breaks: true },
  ];
  return rows.length === 0 ? "" : formatTable(columns, rows, look.width);
}

/** Units that only wait between two tasks, the fixtures that hold them, and what that adds to the lead time. */
function waitsText(answer: ShownBalance, look: Look): string {
  const id = (task: number) => visibleText(answer.line.tasks[task]!.id);
  const empty = answer.shown.emptyPlaces.map(({ ids, wait: { from, to, stations } }) => {
    const what = ids.length === 1 ? `${ids[0]} stays` : `${listOf(ids)} stay`;
    return `${what} empty: ${id(to)} stands at least ${countOf(stations, "station")} after ${id(from)}.`;
  });
  return `${waitsTable(answer, look)}${empty.map((words) => paragraph(words, look)).join("")}`;
}

function waitsTable({ line, measures }: BalanceAnswer, look: Look): string {
  if (measures === null || measures.waiting === null || measures.leadTimeOfWaits === null) return "";
  const isMoving = line.flow.pacing !== "unpaced";
  const id = (task: number) => visibleText(line.tasks[task]!.id);
  const rows = measures.waiting.map(({ wait, units, fixtures }) => [
    `${id(wait.from)} -> ${id(wait.to)}`,
    longTime(wait.wait),
    decimal(units, 2),
    ...(isMoving ? [] : [String(fixtures)]),
  ]);
  const columns: Column[] = [
    { head: "between", wraps: true, narrowest: 8 },
    { head: "wait", align: "right" },
    { head: "units", align: "right" },
    ...(isMoving ? [] : [{ head: "fixtures", align: "right" } as const]),
  ];
  const show = showTimesIn(line.unit);
  const inLine = isMoving ? " Units wait in the line, and need no fixtures beside it." : "";
  const added = `Waiting takes nobody's time; it adds ${show(measures.leadTimeOfWaits)} to the lead time.${inLine}`;
  return `${formatTable(columns, rows, look.width)}${paragraph(added, look)}`;
}
