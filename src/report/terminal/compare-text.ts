import stringWidth from "string-width";
import type { Comparison } from "../../answer/compare/compare-options.js";
import { visibleText } from "../../findings/visible-text.js";
import { cautionsOfOptions } from "../cautions.js";
import { benchesOf } from "../compare-benches.js";
import { absentWords, type Cell, type CellRow, cellRows, signWords, titleOf } from "../compare-cells.js";
import { notesOf } from "../compare-notes.js";
import { compareWords } from "../words/answer-words.js";
import { rankedVerdict } from "../words/verdict-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** The sign of the best value of a row. */
const BEST = "✓";

/** Options side by side for a person; one part for each option where the columns do not fit. Ends in a newline. */
export function compareText(comparison: Comparison, look: Look): string {
  const { options, verdict } = comparison;
  const name = `${paintFor(look).strong(visibleText(titleOf(comparison)))}\n`;
  const parts = [
    `${name}${paragraph(visibleText(compareWords(comparison)), look)}`,
    headed(
      "verdict",
      formatTable(
        [{ head: "" }, { head: "", wraps: true }],
        rankedVerdict(verdict).map(({ rank, words }) => [rank, visibleText(words)]),
        look.width,
      ),
      look,
    ),
    ...figures(comparison, look),
    headed("benches", benchesText(comparison, look), look),
    headed("notes", notesText(comparison, look), look),
    cautionText(cautionsOfOptions(options), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function figures(comparison: Comparison, look: Look): string[] {
  const names = comparison.options.map(({ asked }) => visibleText(asked.name));
  const rows = cellRows(comparison);
  const against = names.length > 1 ? `; differences against ${names[0]}${absentWords(comparison)}` : "";
  const signs = `${visibleText(signWords(comparison, BEST))}${against}`;
  const parts = partsThatFit(names, rows, look);
  const tables = parts.map((part) => paint(tableOf(part, names, rows, look), look));
  const isSingle = parts.some(([first]) => first !== 0) || names.length === 1;
  const headings = parts.map((part) => (isSingle ? names[part[0]!]! : "side by side"));
  const headedTables = tables.map((table, at) =>
    at > 0 && !isSingle ? table : headed(headings[at]!, table, look),
  );
  return [...headedTables, paragraph(signs, look)];
}

/** The columns of each table: the first option with as many others as fit, or else each option by itself. */
function partsThatFit(names: readonly string[], rows: readonly CellRow[], look: Look): number[][] {
  const fits = (part: readonly number[]) =>
    tableOf(part, names, rows, look)
      .split("\n")
      .every((each) => stringWidth(each) <= look.width);
  const others = [...names.keys()].slice(1);
  const parts: number[][] = [];
  for (const at of others) {
    const last = parts.at(-1);
    if (last !== undefined && fits([...last, at])) last.push(at);
    else parts.push([0, at]);
  }
  return parts.length > 0 && parts.every(fits) ? parts : [...names.keys()].map((at) => [at]);
}

/** Colour only adds: the sign of the best value is there without it. */
function paint(text: string, look: Look): string {
  const { good } = paintFor(look);
  return text.replaceAll(BEST, good(BEST));
}

function tableOf(
  part: readonly number[],
  names: readonly string[],
  rows: readonly CellRow[],
  look: Look,
): string {
  const columns = part.map((option) => alignedCells(rows.map(({ cells }) => cells[option]!)));
  const heads: Column[] = [
    // An option by itself is as narrow as can be: figures stay whole, and what they are goes on below.
    part.length > 1 ? { head: "" } : { head: "", wraps: true, narrowest: 10 },
    ...part.map((option): Column => ({ head: part.length > 1 ? names[option]! : "" })),
  ];
  const body = rows.map(({ label }, at) => [label, ...columns.map((column) => column[at]!)]);
  return formatTable(heads, body, look.width);
}

/** Values at the right, then the sign, then differences at the right. */
function alignedCells(cells: readonly Cell[]): string[] {
  const widest = (texts: readonly string[]) => Math.max(0, ...texts.map((text) => stringWidth(text)));
  const values = cells.map((cell) => visibleText(cell.value));
  const [value, difference] = [widest(values), widest(cells.map((cell) => cell.difference))];
  const padded = (text: string, width: number) => " ".repeat(width - stringWidth(text)) + text;
  return cells.map((cell, at) => {
    const sign = cell.isBest ? BEST : " ";
    return `${padded(values[at]!, value)} ${sign} ${padded(cell.difference, difference)}`.trimEnd();
  });
}

/** What each bench builds and how far that fills it. */
function benchesText({ options }: Comparison, look: Look): string {
  const rows = options.flatMap((option) =>
    benchesOf(option).map(({ id, words }) => [option.asked.name, id, words].map((each) => visibleText(each))),
  );
  return formatTable([{ head: "" }, { head: "" }, { head: "", wraps: true }], rows, look.width);
}

/** What the file says of an option, and what is not certain about its figures. */
function notesText({ options, facts }: Comparison, look: Look): string {
  return options
    .flatMap((option, at) =>
      notesOf(option, facts[at]!).map((words) => paragraph(`${option.asked.name}: ${words}`, look)),
    )
    .join("");
}
