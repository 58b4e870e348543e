import { hasErrors } from "../findings/finding.js";
import type { LineReading } from "../line/read-line.js";
import { readLineText } from "../line/read-line-text.js";
import type { LineSource } from "../line/write/update-line.js";
import { type Context, UsageError } from "./context.js";
import { refuseSameFile } from "./emit.js";

/** Options of commands that change a line file. */
export interface IntoOptions {
  readonly into?: string;
  readonly dryRun?: true;
}

/** Refuses, before any work, a line file that could not be written, and what does not go together. */
export async function checkInto(
  context: Context,
  read: [string, string],
  { into, dryRun }: IntoOptions,
): Promise<void> {
  if (dryRun && into === undefined) throw new UsageError("--dry-run goes with --into");
  if (into === undefined) return;
  if (into === "-") throw new UsageError("--into needs the line in a file, as it is written there");
  refuseSameFile(context, ["--into", into], read);
  if (!dryRun) await context.checkTarget(into, { force: true });
}

/** The line file that is to be changed, as it was read. */
export type Target = LineReading & { readonly file: string; readonly source: string };

export async function loadTarget(context: Context, file: string): Promise<Target> {
  const source = await context.readText(file);
  const name = file === "-" ? "standard input" : file;
  return { file: name, source, ...readLineText(name, source) };
}

/** What can be changed of a target; null where its file has faults. */
export function lineSourceOf({ line, findings, document, source }: Target): LineSource | null {
  return line === null || document === null || hasErrors(findings) ? null : { line, document, source };
}
