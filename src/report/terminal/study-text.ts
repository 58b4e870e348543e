import stringWidth from "string-width";
import { countOf, thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { StudiedElement, Study } from "../../study/study-elements.js";
import { type ShowTime, showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import type { IntoJson } from "../json/study-json.js";
import {
  allowanceWords,
  moreNeededWords,
  neededWords,
  readWords,
  statisticWords,
} from "../words/study-words.js";
import { readingsPicture } from "./readings-picture.js";
import { headed, linesText, paragraph, unindented } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** A time study for people: every element from its readings to its standard time, and what is needed to be sure of it. */
export function studyText(
  study: Study,
  pictured: StudiedElement | null,
  into: IntoJson | null,
  look: Look,
): string {
  const show = showTimesIn(study.read.unit);
  const parts = [
    `${paintFor(look).strong(visibleText(study.file))}\n${unindented(`${countOf(study.elements.length, "element")}: ${readWords(study)}`, look)}\n`,
    headed("elements", elementRows(study, show, look), look),
    headed(
      "allowance and readings needed",
      [allowanceWords(study), neededWords(study, show), moreNeededWords(study)]
        .map((words) => paragraph(words, look))
        .join(""),
      look,
    ),
    headed("observers", observerRows(study, show, look), look),
    pictured === null ? "" : readingsPicture(pictured, show, look),
    into === null ? "" : intoText(into, show, look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

interface Figure extends Column {
  /** How soon it is left out where the table is too wide; never where it is not said. */
  readonly leaves?: number;
  of(element: StudiedElement): string;
  /** Of all elements together, per unit. */
  readonly total?: string;
}

/** One row an element; figures that the width has no room for are named instead, the least asked for first. */
function elementRows(study: Study, show: ShowTime, look: Look): string {
  const { elements } = study;
  const drawn = (some: readonly Figure[]) =>
    formatTable(
      some,
      [
        ...elements.map((element) => some.map((figure) => figure.of(element))),
        some.map(({ total = "" }) => total),
      ],
      look.width,
    );
  const all = figuresOf(study, show);
  const leaving = all
    .filter(({ leaves }) => leaves !== undefined)
    .sort((one, two) => one.leaves! - two.leaves!);
  const fits = (table: string) => table.split("\n").every((row) => stringWidth(row) <= look.width);
  const left: Figure[] = [];
  let shown = all;
  let table = drawn(shown);
  while (left.length < leaving.length && !fits(table)) {
    left.push(leaving[left.length]!);
    shown = all.filter((each) => !left.includes(each));
    table = drawn(shown);
  }
  const has = (head: string) => shown.some((each) => each.head === head);
  const notes = [
    ...(has("rating") && elements.some(({ isRatedAlike }) => !isRatedAlike)
      ? ["* Readings have ratings of their own: normal / observed time."]
      : []),
    ...(elements.some(({ every }) => every > 1)
      ? ["Times are of one time that the element is done. Per unit, each counts / its units."]
      : []),
    `${has("spread") ? "Spread is the standard deviation with n - 1. " : ""}Times are rounded when shown; sums are of exact times.`,
    ...(left.length === 0
      ? []
      : [
          `${listOf(all.filter((each) => left.includes(each)).map(({ head }) => head))} left out for width; see --json`,
        ]),
  ];
  return table + notes.map((note) => paragraph(note, look)).join("");
}

const figuresOf = (study: Study, show: ShowTime): readonly Figure[] => [
  {
    head: "element",
    givesWay: true,
    of: ({ name, every }) => visibleText(name) + (every > 1 ? `, every ${every} units` : ""),
    total: "per unit",
  },
  {
    head: "readings",
    align: "right",
    leaves: 4,
    of: ({ readings, leftOut }) => `${readings}${leftOut > 0 ? ` (${leftOut} left out)` : ""}`,
  },
  { head: statisticWords(study), align: "right", leaves: 3, of: ({ observed }) => show(observed) },
  {
    head: "spread",
    align: "right",
    leaves: 0,
    of: ({ deviation }) => (deviation === null ? "-" : show(deviation)),
  },
  {
    head: "rating",
    align: "right",
    leaves: 1,
    of: ({ rating, isRatedAlike }) => `${percent(rating)}${isRatedAlike ? "" : " *"}`,
  },
  { head: "normal", align: "right", leaves: 2, of: ({ normal }) => show(normal), total: show(study.normal) },
  { head: "standard", align: "right", of: ({ standard }) => show(standard), total: show(study.standard) },
  {
    head: "needed",
    align: "right",
    of: ({ needed }) => (needed === null ? "-" : thousands(needed.readings)),
  },
];

function observerRows({ elements }: Study, show: ShowTime, look: Look): string {
  const rows = elements.flatMap(({ name, observers }) =>
    observers.map((each) => [
      visibleText(name),
      each.name === "" ? "not named" : visibleText(each.name),
      String(each.readings),
      show(each.mean),
    ]),
  );
  if (rows.length === 0) return "";
  const heads = [
    { head: "element", givesWay: true },
    { head: "observer", givesWay: true },
    { head: "readings", align: "right" as const },
    { head: "mean, not rated", align: "right" as const },
  ];
  return formatTable(heads, rows, look.width);
}

function intoText({ file, isWritten, line }: IntoJson, show: ShowTime, look: Look): string {
  const rows = line.tasks.map(({ task, was, now, elements }) => [
    visibleText(task),
    show(was),
    show(now),
    elements.length === 1 && elements[0] === task ? "" : `from ${elements.map(visibleText).join(", ")}`,
  ]);
  const table = formatTable(
    [
      { head: "task", givesWay: true },
      { head: "was", align: "right" },
      { head: "now", align: "right" },
      { head: "", wraps: true },
    ],
    rows,
    look.width,
  );
  if (isWritten) return headed("written", `${paragraph(`Into ${file}:`, look)}${table}`, look);
  const said = paragraph(`Into ${file}, without --dry-run:`, look);
  return headed("not written", `${said}${table}\n${linesText(line.lines)}`, look);
}
