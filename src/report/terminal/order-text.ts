import type { FloorQuestion } from "../../answer/order/ask-floor.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { FreePair, LearntOrder } from "../../import-tables/learn-order.js";
import { CAUTION } from "../cautions.js";
import type { OrderAnswer } from "../json/order-json.js";
import { lookedAtWords, questionWords } from "../words/question-words.js";
import { intoText } from "./import-text.js";
import { headed, paragraph, titleText } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** Pairs that are shown before the rest is counted. */
const SHOWN = 10;

const LAYOUTS = {
  "row a task": "a row a task",
  "row a task and unit": "a row a task, with its unit",
  "column a unit": "a column a unit, read downwards",
  "numbers by unit": "a row a task, with its number in each unit",
} as const;

/** What orders of work have shown: the precedences, the questions worth asking, and what is free. */
export function orderText(answer: OrderAnswer, look: Look): string {
  const { line, learnt, into } = answer;
  const parts = [
    `${titleText(line, look)}${paragraph(summary(answer), look)}`,
    headed("ask the floor", questionRows(answer, look), look),
    headed("new precedences", newRows(learnt, look), look),
    headed("seen both ways", freeRows(learnt, look), look),
    headed("orders read", orderRows(answer, look), look),
    into === null ? "" : intoText(into, look),
    headed(
      "caution",
      [
        "Orders show what was done, not what is safe. What was seen both ways is free only where both units came out right.",
        CAUTION,
      ]
        .map((words) => paragraph(words, look))
        .join(""),
      look,
    ),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

const newOf = ({ arrows }: LearntOrder) => arrows.filter(({ isKnown }) => !isKnown);

function summary({ line, learnt, questions }: OrderAnswer): string {
  const [best] = questions?.questions ?? [];
  const asked = best === undefined ? "" : ` First question: ${questionWords(line, best, questions!.size)}`;
  const added = newOf(learnt).length;
  const agree = `${countOf(learnt.units.length, "unit")}, ${countOf(learnt.arrows.length, "direct precedence")}, ${added === 0 ? "none" : thousands(added)} of them new to the line; ${countOf(learnt.free.count, "pair")} of tasks in either order.`;
  return `${agree}${asked}`;
}

function questionRows({ line, learnt, questions, most }: OrderAnswer, look: Look): string {
  if (questions === null) return "";
  const rows = questions.questions.slice(0, most).map((each, at) => {
    const words = questionWords(line, each, questions.size);
    return [`${at + 1}.`, visibleText(words), restsOn(learnt, each)];
  });
  const more = questions.questions.length - rows.length;
  const table = formatTable(
    [{ head: "", align: "right" }, { head: "question", wraps: true }, { head: "rests on" }],
    rows,
    look.width,
  );
  const notes = [
    ...(more > 0
      ? [`${countOf(more, "more question")}: give --questions ${questions.questions.length}.`]
      : []),
    ...(rows.length === 0 && !questions.noneHelps && questions.balances > 0
      ? ["No question was found that would save a person or a station."]
      : []),
    ...lookedAtWords(questions),
  ];
  return (rows.length === 0 ? "" : table) + paragraph(notes.join(" "), look);
}

/** Where the precedences of a question come from. */
function restsOn({ arrows }: LearntOrder, { precedences }: FloorQuestion): string {
  const asked = precedences.map(({ before, after }) =>
    arrows.find((each) => each.before === before && each.after === after),
  );
  const sources = asked.map((each) =>
    each === undefined || each.isKnown ? "the line file" : countOf(each.seenIn, "unit"),
  );
  return listOf([...new Set(sources)]);
}

function newRows(learnt: LearntOrder, look: Look): string {
  const added = newOf(learnt);
  if (added.length === 0) return "";
  const id = (task: number) => visibleText(learnt.tasks[task]!.id);
  const rows = added.map(({ before, after, seenIn }) => [id(before), id(after), thousands(seenIn)]);
  const heads = [
    { head: "task", givesWay: true },
    { head: "comes before", givesWay: true },
    { head: "units with both", align: "right" as const },
  ];
  const known = learnt.arrows.length - added.length;
  const rest = known === 0 ? "" : ` The line file has ${thousands(known)} more.`;
  const words = `Every unit with both tasks does them so. Precedences that others imply are left out.${rest}`;
  return formatTable(heads, rows, look.width) + paragraph(words, look);
}

function freeRows({ tasks, freePairs, free, alone }: LearntOrder, look: Look): string {
  if (freePairs.length === 0) return "";
  const id = (task: number) => visibleText(tasks[task]!.id);
  const where = ({ forth, back }: FreePair) =>
    [forth, back].map(({ unit, first, second }) => `${visibleText(unit)} (rows ${first.row}, ${second.row})`);
  const rows = freePairs.slice(0, SHOWN).map((pair) => {
    const [forth, back] = where(pair);
    const [one, two] = pair.tasks;
    return [id(one), id(two), `${pair.counts[0]} : ${pair.counts[1]}`, forth!, back!];
  });
  const heads = [
    { head: "task", givesWay: true },
    { head: "and", givesWay: true },
    { head: "units", align: "right" as const },
    { head: "first before second", breaks: true },
    { head: "second before first", breaks: true },
  ];
  const rest = free.count - rows.length;
  const notes = [
    ...(rest > 0 ? [`${countOf(rest, "more pair")}: see --json.`] : []),
    ...(alone > 0
      ? [
          `In ${countOf(alone, "pair")} one unit alone does it the other way; these stand first: make sure that it came out right.`,
        ]
      : []),
  ];
  return formatTable(heads, rows, look.width) + paragraph(notes.join(" "), look);
}

function orderRows({ learnt, files }: OrderAnswer, look: Look): string {
  const rows = learnt.units.map(({ label, table, steps, lacks }) => [
    visibleText(label),
    thousands(steps.length),
    thousands(lacks.length),
    visibleText(table.file),
  ]);
  const heads = [
    { head: "unit", givesWay: true },
    { head: "tasks", align: "right" as const },
    { head: "lacks", align: "right" as const },
    { head: "file", givesWay: true },
  ];
  const read = files.map(({ file, layout }) => `${file}: ${LAYOUTS[layout]}.`);
  return formatTable(heads, rows, look.width) + paragraph(read.join(" "), look);
}
