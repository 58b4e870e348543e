import { hasErrors, type Finding as InnerFinding } from "../findings/finding.js";
import { readLineText } from "../line/read-line-text.js";
import type { LineSource } from "../line/write/update-line.js";
import { findingsOfText, type PlacedFinding } from "./finding.js";
import { checkOptions, UsageError } from "./usage-error.js";

/** A line that was read, for the other functions to work with. It does not change. */
export interface Line {
  /** What findings call its file. */
  readonly file: string;
  /** What it says under `line:`, or else the name of the file without its endings. */
  readonly name: string;
  /** In the order of the answers. */
  readonly tasks: readonly { readonly id: string; readonly name: string | null }[];
  /** The names under `options:`, for `compare`. */
  readonly options: readonly string[];
}

/** What became of the text of a line file. */
export interface LineReading {
  /** Null where an error among the findings keeps it from being a line. */
  readonly line: Line | null;
  /** Every fault of the text at once, each with its place, and what is worth knowing of a line without faults. */
  readonly findings: readonly PlacedFinding[];
}

/** What the library keeps of a line. */
export interface KnownLine extends LineSource {
  readonly findings: readonly InnerFinding[];
}

const known = new WeakMap<Line, KnownLine>();

/**
 * Reads a line file: YAML with the keys of `shared/line-file.md`. Times, shares and demand are exact; nothing is guessed.
 *
 * @param text the whole text
 * @param options.file what findings call it; "line.yaml" where left out
 * @returns the line, or null beside its faults; never throws for anything in the text
 * @throws UsageError for a text that is no string, and for an unknown option
 */
export function readLine(text: string, options: { readonly file?: string } = {}): LineReading {
  checkOptions(options, ["file"]);
  if (typeof text !== "string") throw new UsageError("readLine: the text of a line file is expected");
  const { line, findings, document } = readLineText(options.file ?? "line.yaml", text);
  if (line === null || document === null || hasErrors(findings))
    return { line: null, findings: findingsOfText(findings) };
  const shown: Line = Object.freeze({
    file: line.file,
    name: line.name,
    tasks: line.tasks.map(({ id, name }) => ({ id, name })),
    options: line.options.map(({ name }) => name),
  });
  known.set(shown, { line, findings, document, source: text });
  return { line: shown, findings: findingsOfText(findings) };
}

/** What is known of a line. Throws a UsageError for what `readLine` did not give. */
export function knownLine(line: Line): KnownLine {
  const found = known.get(line);
  if (found === undefined) throw new UsageError("a line is expected that readLine gave");
  return found;
}
