import type { Comparison } from "../../answer/compare/compare-options.js";
import { CAUTION, cautionsOfOptions, cautionWords } from "../cautions.js";
import { benchesOf } from "../compare-benches.js";
import { absentWords, cellRows, signWords, titleOf } from "../compare-cells.js";
import { notesOf } from "../compare-notes.js";
import { rankedVerdict } from "../words/verdict-words.js";
import { markdownTable, plainMarkdown } from "./markdown.js";

/** A heading, the verdict, the table, the notes and the cautions; the best value of a row is bold and has its sign. */
export function compareMarkdown(comparison: Comparison): string {
  const { options, facts, verdict } = comparison;
  const names = options.map(({ asked }) => plainMarkdown(asked.name));
  const rows = cellRows(comparison).map(({ label, cells }) => [
    plainMarkdown(label),
    ...cells.map(({ value, difference, isBest }) => {
      const shown = plainMarkdown(value);
      const marked = isBest ? `**${shown}** ✓` : shown;
      return difference === "" ? marked : `${marked} (${plainMarkdown(difference)})`;
    }),
  ]);
  const first =
    names.length > 1
      ? `; in brackets the difference to ${names[0]}${plainMarkdown(absentWords(comparison))}`
      : "";
  const signs = plainMarkdown(signWords(comparison, "✓"));
  const notes = options.flatMap((option, at) =>
    [
      ...benchesOf(option).map(({ id, words }) => `bench ${id}: ${words}`),
      ...notesOf(option, facts[at]!),
    ].map((words) => `- ${plainMarkdown(option.asked.name)}: ${plainMarkdown(words)}\n`),
  );
  return [
    `## ${plainMarkdown(titleOf(comparison))}: options\n`,
    rankedVerdict(verdict)
      .map(({ rank, words }) => `${rank === "" ? "-" : rank} ${plainMarkdown(words)}\n`)
      .join(""),
    markdownTable(["figure", ...names], rows),
    ...(signs === "" ? [] : [`${signs}${first}.\n`]),
    ...(notes.length > 0 ? [notes.join("")] : []),
    `### Caution\n`,
    [...cautionsOfOptions(options).map(cautionWords), CAUTION]
      .map((words) => `- ${plainMarkdown(words)}\n`)
      .join(""),
  ].join("\n");
}
