import type { LineCounter } from "yaml";
import type { Place } from "../../findings/finding.js";

/** The place of a stretch of text by offsets; what runs over several lines is placed on its first, without blanks at the end. */
export function locate(source: string, lines: LineCounter, from: number, to: number): Place {
  const { line, col } = lines.linePos(Math.min(from, source.length));
  const firstLine = source.slice(from, to).split(/\r?\n/, 1)[0]!.trimEnd();
  return {
    line: Math.max(1, line),
    column: Math.max(1, col),
    endColumn: Math.max(1, col) + Math.max(1, firstLine.length),
  };
}
