import { visibleText } from "../../findings/visible-text.js";
import type { PlainTable } from "../plain-table.js";

/** Text that Markdown shows as it is typed, also at the start of a line and in the cell of a table. */
export function plainMarkdown(text: string): string {
  return visibleText(text)
    .replaceAll(/[\\`*_[\]<>#|~&]/gu, String.raw`\$&`)
    .replace(/^[-+](?=\s)/u, String.raw`\$&`)
    .replace(/^(\d+)([.)])(?=\s|$)/u, String.raw`$1\$2`);
}

/** A table with its first column at the left and the others at the right, or where it is said; cells are Markdown already. */
export function markdownTable(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  aligned: readonly ("left" | "right")[] = heads.map((_, at) => (at === 0 ? "left" : "right")),
): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |\n`;
  const rule = aligned.map((each) => (each === "left" ? ":---" : "---:"));
  return [heads, rule, ...rows].map(line).join("");
}

/** The same of a table of plain text. */
export const plainTableMarkdown = ({ columns, rows }: PlainTable): string =>
  markdownTable(
    columns.map(({ head }) => plainMarkdown(head)),
    rows.map((row) => row.map(plainMarkdown)),
    columns.map(({ align }) => align),
  );

/** Text in columns between fences that are longer than any tildes in it, so that no name ends the block. */
export function fencedText(text: string): string {
  const longest = Math.max(0, ...[...text.matchAll(/~+/gu)].map(([tildes]) => tildes.length));
  const fence = "~".repeat(Math.max(3, longest + 1));
  return `${fence}text\n${text}${fence}\n`;
}
