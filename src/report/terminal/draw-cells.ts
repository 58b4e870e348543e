import { widthOf } from "./width-of.js";

/** Spaces before a table and between its columns. */
export const [INDENT, GAP] = ["  ", "  "];

export interface DrawnColumn {
  readonly width: number;
  readonly align: "left" | "right";
}

/** Lines of cells in columns of given widths, nothing behind the last of them; no cell is wider than its column. */
export function drawCells(columns: readonly DrawnColumn[], lines: readonly (readonly string[])[]): string[] {
  return lines.map((cells) =>
    (
      INDENT +
      columns
        .map(({ width, align }, at) => {
          const cell = cells[at] ?? "";
          const room = " ".repeat(Math.max(0, width - widthOf(cell)));
          return align === "right" ? room + cell : cell + room;
        })
        .join(GAP)
    ).trimEnd(),
  );
}

/** Words put into lines of so many columns, as many as fit each; a word may have spaces of its own. */
export function fillLines(words: readonly string[], width: number): string[] {
  const lines: string[] = [];
  let [line, taken] = ["", 0];
  for (const word of words) {
    const columns = widthOf(word);
    if (line !== "" && taken + 1 + columns > width) {
      lines.push(line.trimEnd());
      [line, taken] = ["", 0];
    }
    [line, taken] = line === "" ? [word, columns] : [`${line} ${word}`, taken + 1 + columns];
  }
  return [...lines, line.trimEnd()];
}
