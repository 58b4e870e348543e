import stringWidth from "string-width";
import type { LineFacts } from "../../answer/balance/shown-balance.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import type { ChangedLines } from "../../line/write/source-edits.js";
import { decimal } from "../../time/show-values.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";
import { wrapText } from "./wrap-text.js";

/** Names in a sentence before the rest is counted. */
const NAMED = 6;

/** Lines of text longer than this are hard to read, however wide the terminal. */
const LONGEST_LINE = 110;

const textWidth = ({ width }: Look): number =>
  Number.isFinite(width) ? Math.min(Math.max(24, width), LONGEST_LINE) : width;

/** A part of a report under its heading; nothing where the part is empty. */
export function headed(heading: string, body: string, look: Look): string {
  return body === "" ? "" : `${paintFor(look).heading(heading.toUpperCase())}\n${body}`;
}

/** A paragraph, indented and wrapped to the look's width. */
export function paragraph(text: string, look: Look): string {
  if (text === "") return "";
  return wrapText(visibleText(text), textWidth(look) - 2)
    .map((each) => `  ${each}\n`)
    .join("");
}

/** Text below a title, wrapped to the look's width. */
export const unindented = (text: string, look: Look): string =>
  wrapText(visibleText(text), textWidth(look)).join("\n");

/** Rows of a label, a value and what it is made of, the last one wrapped. */
export function labelled(rows: readonly (readonly [string, string, string])[], look: Look): string {
  const paint = paintFor(look);
  return formatTable(
    [
      { head: "", givesWay: true },
      { head: "", align: "right" },
      { head: "", wraps: true },
    ],
    rows,
    look.width,
    (text, _, column) => (column === 1 ? paint.strong(text) : text),
  );
}

/** Lines of a file before and after a change. */
export function linesText(lines: readonly ChangedLines[]): string {
  const shown = lines.flatMap(({ line, was, now }) => [
    `  line ${line}\n`,
    ...was.map((each) => `  - ${visibleText(each)}\n`),
    ...now.map((each) => `  + ${visibleText(each)}\n`),
  ]);
  return shown.join("");
}

/** How much there is to do, and where the work starts and ends: a wrong arrow shows here first. */
export function scopeText(line: Line, { starts, ends }: LineFacts, look: Look): string {
  const names = (tasks: readonly number[]) => {
    const shown = tasks.slice(0, NAMED).map((task) => line.tasks[task]!.id);
    return tasks.length > NAMED ? `${shown.join(", ")} and ${tasks.length - NAMED} more` : shown.join(", ");
  };
  const count = countOf(line.tasks.length, "task");
  const [first, last] = [names(starts), names(ends)];
  return unindented(`${count}; starts with: ${first}; ends with: ${last}`, look);
}

/** The line's name and, where the pace comes from it, its demand: at the right where there is room. */
export function titleText(line: Line, look: Look): string {
  const name = visibleText(line.name);
  const demand = line.demand === null ? "" : `${decimal(line.demand.units, 3)} per ${line.demand.period}`;
  const gap = look.width - stringWidth(name) - stringWidth(demand);
  const title = paintFor(look).strong(name);
  if (demand === "") return `${title}\n`;
  if (!Number.isFinite(gap)) return `${title}  ${demand}\n`;
  return gap >= 2 ? `${title}${" ".repeat(gap)}${demand}\n` : `${title}\n${demand}\n`;
}
