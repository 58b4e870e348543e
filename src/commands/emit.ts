import type { Command } from "commander";
import { type Context, UsageError } from "./context.js";

/** Options of every command that prints a result. */
export interface OutputOptions {
  readonly json?: true;
  readonly out?: string;
  readonly force?: true;
}

export function addOutputOptions(command: Command): Command {
  return command
    .option("--json", "print the result as one JSON object")
    .option("--out <file>", "write the result to a file, not to the screen")
    .option("--force", "replace a file that exists");
}

/**
 * Refuses, before any long work, an `--out` file that could not be written at the end, and one that is the line file
 * itself: no `--force` is meant for that.
 */
export async function checkOutput(context: Context, linePath: string, options: OutputOptions): Promise<void> {
  if (options.out === undefined) return;
  refuseSameFile(context, ["--out", options.out], ["the line file", linePath]);
  await context.checkTarget(options.out, { force: options.force === true });
}

/** Refuses to write over what is read, or twice to the same place. */
export function refuseSameFile(context: Context, one: [string, string], other: [string, string]): void {
  if (one[1] === "-" ? other[1] === "-" && other[0].startsWith("--") : context.isSameFile(one[1], other[1])) {
    throw new UsageError(`${one[0]} and ${other[0]} are the same file, "${one[1]}"; give another one`);
  }
}

/** Gives a finished result to where the user wants it. */
export async function emit(context: Context, text: string, options: OutputOptions): Promise<void> {
  if (options.out === undefined) context.print(text);
  else await context.writeText(options.out, text, { force: options.force === true });
}

/** The format asked for, `otherwise` where none is; `--json` is short for `--format json`. */
export function formatOf<Format extends string>(
  { json, format }: { readonly json?: true; readonly format?: Format },
  otherwise: Format,
): Format | "json" {
  if (json && format !== undefined && format !== "json")
    throw new UsageError(`--json and --format ${format} exclude each other; give one of them`);
  return json ? "json" : (format ?? otherwise);
}

/** Refuses options that exclude each other, by name. */
export function refuseTogether(one: [string, unknown], two: [string, unknown]): void {
  if (one[1] !== undefined && two[1] !== undefined) {
    throw new UsageError(`${one[0]} and ${two[0]} exclude each other; give one of them`);
  }
}
