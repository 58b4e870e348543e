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
    .option("--out <file>", "write the result to a file instead of standard output")
    .option("--force", "replace a file that exists");
}

/** Refuses an `--out` file that could not be replaced at the end, before any long work. */
export async function refuseOutputInTheWay(context: Context, options: OutputOptions): Promise<void> {
  const { out, force } = options;
  if (out === undefined || force || (await context.readExisting(out)) === null) return;
  throw new UsageError(`${out} exists; --force replaces it`);
}

/** Gives a finished result to where the user wants it. */
export async function emit(context: Context, text: string, options: OutputOptions): Promise<void> {
  if (options.out === undefined) context.print(text);
  else await context.writeText(options.out, text, { force: options.force === true });
}

/** Refuses options that exclude each other, by name. */
export function refuseTogether(one: [string, unknown], two: [string, unknown]): void {
  if (one[1] !== undefined && two[1] !== undefined) {
    throw new UsageError(`${one[0]} and ${two[0]} exclude each other; give one of them`);
  }
}
