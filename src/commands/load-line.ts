import { type Finding, finding, hasErrors } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { A_TABLE, otherText } from "../findings/other-text.js";
import type { Line } from "../line/line.js";
import { type LineReading, readLine } from "../line/read-line.js";
import { refusedJson } from "../report/json/finding-json.js";
import type { Context } from "./context.js";
import { emit, type OutputOptions } from "./emit.js";

/** A line that was read, with what is worth knowing about its file. */
export interface LoadedLine {
  readonly line: Line;
  readonly findings: readonly Finding[];
  /** Tells of findings about this file: errors and warnings on stderr, notes only where they are asked for. */
  tell(findings: readonly Finding[], withNotes: boolean): void;
  /** Refuses the input for these faults of the file: JSON on stdout where asked for, else text on stderr. */
  refuse(findings: readonly Finding[]): Promise<void>;
}

/** Reads the text of a line file; of a plan file, and of what is no such file at all, that alone is said. */
export function readLineText(file: string, text: string): LineReading {
  const other = RESULT_START.test(text) ? "JSON that a command printed" : otherText(text);
  if (other === null && !PLAN_START.test(text)) return readLine(file, text);
  const message =
    other === null
      ? "this is a plan file, not a line; try: linepoise check LINE PLAN"
      : `this seems to be ${other}; a line file in YAML is expected, ${other === A_TABLE ? "`linepoise import` makes one of a table of tasks" : "`linepoise new` prints one to start from"}`;
  return {
    line: null,
    findings: [finding({ rule: "not-a-line", severity: "error", message, file })],
    document: null,
  };
}

/** What only plans say, in block style and flow style, keys quoted or not: their format, and what they were made for. */
const PLAN_START = /^(?:\s*\{)?\s*["']?(?:format["']?\s*:\s*["']?linepoise-plan\/|made-for["']?\s*:)/mu;

/** How the answers of all commands begin. */
const RESULT_START = /^\s*\{\s*"format"\s*:\s*"linepoise\/\d+"/u;

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
  const refuse = async (faults: readonly Finding[]) => {
    if (options.json) await emit(context, refusedJson(command, faults), options);
    else tell(faults, false);
  };
  if (line === null || hasErrors(findings)) {
    await refuse(findings);
    return null;
  }
  return { line, findings, tell, refuse };
}
