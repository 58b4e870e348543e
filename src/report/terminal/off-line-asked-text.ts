import type { AskedBlock, OffLineAnswer } from "../../answer/off-line/off-line-answer.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { hindranceWords } from "../words/hindrance-words.js";
import { setWords } from "../words/rated-words.js";
import { benchText } from "./off-line-bench-text.js";
import { figuresRow, figuresTable } from "./off-line-blocks-text.js";
import { headed } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** What was asked for, or what the file states: yes or no with the reasons, each bench in full, and all of them together. */
export function answersText(answer: OffLineAnswer, look: Look): string {
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
