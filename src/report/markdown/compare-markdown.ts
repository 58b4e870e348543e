import type { Comparison } from "../../compare/compare-options.js";
import { cellRows } from "../compare-cells.js";
import { markdownTable, plainMarkdown } from "./markdown.js";

/** A heading, the verdict and the table; the best value of a row is bold and has its sign. */
export function compareMarkdown(comparison: Comparison): string {
  const { line, options, verdict } = comparison;
  const names = options.map(({ asked }) => plainMarkdown(asked.name));
  const rows = cellRows(comparison).map(({ label, cells }) => [
    plainMarkdown(label),
    ...cells.map(({ value, difference, isBest }) => {
      const shown = plainMarkdown(value);
      const marked = isBest ? `**${shown}** ✓` : shown;
      return difference === "" ? marked : `${marked} (${plainMarkdown(difference)})`;
    }),
  ]);
  const first = names.length > 1 ? `, in brackets the difference to ${names[0]}` : "";
  const notes = options.flatMap(({ asked }) =>
    asked.option?.note == null
      ? []
      : [`- ${plainMarkdown(asked.name)}: ${plainMarkdown(asked.option.note)}\n`],
  );
  return [
    `## ${plainMarkdown(line.name)}: options\n`,
    `${plainMarkdown(verdict)}\n`,
    markdownTable(["figure", ...names], rows),
    `✓ the best of its row${first}.\n`,
    ...(notes.length > 0 ? [notes.join("")] : []),
  ].join("\n");
}
