import type { AskedBlock, OffLineAnswer } from "../../answer/off-line/off-line-answer.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import { cautionsOfBlocks } from "../cautions.js";
import { offLineWords } from "../words/answer-words.js";
import { hindranceWords } from "../words/hindrance-words.js";
import { overWhom, splitOfPeople } from "../words/people-words.js";
import { setWords } from "../words/rated-words.js";
import { cautionText } from "./cautions-text.js";
import { benchText } from "./off-line-bench-text.js";
import { blocksText, figuresRow, figuresTable, setsText } from "./off-line-blocks-text.js";
import { longTasksText } from "./off-line-long-text.js";
import { headed, labelled, paragraph, scopeText, titleText } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** The whole answer of `off-line` for a person. Empty parts are left out; ends in a newline. */
export function offLineAnswerText(answer: OffLineAnswer, look: Look): string {
  const { line } = answer;
  const parts = [
    `${titleText(line, look)}${scopeText(line, answer.shown, look)}\n${paragraph(visibleText(offLineWords(answer)), look)}`,
    headed("everything on the line", beforeText(answer, look), look),
    answersText(answer, look),
    headed("blocks that may go", blocksText(answer, look), look),
    headed("best benches together", setsText(answer, look), look),
    headed("longer than a station may take", longTasksText(answer, look), look),
    cautionText(cautionsOfBlocks(answer), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function beforeText({ line, pace, before }: OffLineAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const cycle: [string, string, string] = [
    "line cycle",
    show(pace.lineCycle),
    `station limit ${show(pace.stationLimit)}`,
  ];
  if (before.plan === null) {
    const none = before.outcome === "infeasible" ? "No balance" : "No balance was found";
    return `${labelled([cycle], look)}${paragraph(`${none} with everything on the line; the figures of blocks stand alone.`, look)}`;
  }
  const { stations, people, cycleOfPlan, slowestStation, efficiency } = before;
  const { linePeople, repairPeople: repair, peopleOfDay } = before;
  const split = {
    onLine: linePeople!,
    atBenches: 0,
    repair,
    perDay: line.calendar === null ? null : peopleOfDay,
  };
  const least =
    before.outcome === "proved" ? "proved least" : `not proved; at least ${before.leastStations} are needed`;
  return labelled(
    [
      cycle,
      ["stations", String(stations), least],
      ["people", String(people), splitOfPeople(line, split)],
      [
        "cycle of the plan",
        cycleOfPlan === null ? "-" : show(cycleOfPlan),
        `${slowestStation}, the slowest station`,
      ],
      ["efficiency", efficiency === null ? "-" : percent(efficiency), `at the pace, ${overWhom(repair)}`],
    ],
    look,
  );
}

/** What was asked for, or what the file states: yes or no with the reasons, each bench in full, and all of them together. */
function answersText(answer: OffLineAnswer, look: Look): string {
  const answers = answer.asked ?? answer.stated;
  if (answers === null) return "";
  const heading = answer.asked === null ? "may the benches of the file build this" : "may these go";
  const { together, before } = answer;
  const parts = [
    headed(heading, verdictsText(answer.line, answers, look), look),
    ...answers.flatMap(({ rated }) => (rated === null ? [] : [benchText(answer, rated, look)])),
    together === null
      ? ""
      : headed(
          "all of them together",
          figuresTable(
            answer,
            [figuresRow(before, together.plan, together.people, `${setWords(answer, together)}.`)],
            look,
          ),
          look,
        ),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function verdictsText(line: Line, answers: readonly AskedBlock[], look: Look): string {
  const paint = paintFor(look);
  return formatTable(
    [{ head: "" }, { head: "", wraps: true }],
    answers.map((each) => [each.rated === null ? "no" : "yes", visibleText(answerWords(line, each))]),
    look.width,
    (text, row, column) =>
      column === 0 ? (answers[row]!.rated === null ? paint.bad(text) : paint.good(text)) : text,
  );
}

function answerWords(line: Line, { id, verdict }: AskedBlock): string {
  const names = (tasks: readonly number[]) => tasks.map((task) => line.tasks[task]!.id).join(", ");
  const asked = `${id === null ? "" : `${id}: `}${names(verdict.tasks)}`;
  if (verdict.hindrances.length === 0) return `${asked}; joins at ${names(verdict.joinsAt)}`;
  const reasons = verdict.hindrances.map((each) => hindranceWords(line, each)).join("; ");
  const isSeveral = verdict.hindrances.some(({ kind }) => kind === "joins-at-several");
  const several = isSeveral ? ". With --joins-at-several it may" : "";
  const near = verdict.nearest === null ? "" : `. What could go: ${names(verdict.nearest)}`;
  return `${asked}: ${reasons}${several}${near}`;
}
