import { type Finding, hasErrors } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import type { Line } from "../line/line.js";
import { readLineText } from "../line/read-line-text.js";
import type { Context } from "./context.js";
import { emitRefusal, type OutputOptions } from "./emit.js";

/** A line that was read, with what is worth knowing about its file. */
export interface LoadedLine {
  readonly line: Line;
  readonly findings: readonly Finding[];
  /** Tells of findings about this file: errors and warnings on stderr, notes only where they are asked for. */
  tell(findings: readonly Finding[], withNotes: boolean): void;
  /** Refuses the input for these faults of the file: JSON where asked for, text on stderr otherwise and beside a file. */
  refuse(findings: readonly Finding[]): Promise<void>;
}

/** Reads a line file. Where it has faults they are all told, and the answer is null (status 2). */
export async function loadLine(
  context: Context,
  command: string,
  path: string,
  options: OutputOptions,
): Promise<LoadedLine | null> {
  const text = await context.readText(path);
  const name = path === "-" ? "standard input" : path;
  const { line, findings } = readLineText(name, text);
  const sources = new Map([[name, text]]);
  const tell = (told: readonly Finding[], withNotes: boolean) => {
    const shown = told.filter((each) => withNotes || each.severity !== "note");
    context.note(formatFindings(shown, sources, context.noteWidth));
  };
  const refuse = (faults: readonly Finding[]) =>
    emitRefusal(context, command, faults, options, () => tell(faults, false));
  if (line === null || hasErrors(findings)) {
    await refuse(findings);
    return null;
  }
  return { line, findings, tell, refuse };
}
