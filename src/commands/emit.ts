import type { Command } from "commander";
import type { Finding } from "../findings/finding.js";
import { eitherOf } from "../findings/list-of.js";
import { refusedJson } from "../report/json/finding-json.js";
import type { CsvHabits } from "../table/sheet.js";
import { type Context, UsageError } from "./context.js";
import { oneOf } from "./option-values.js";

/** Options of every command that prints a result. */
export interface OutputOptions {
  readonly json?: true;
  readonly out?: string;
  readonly force?: true;
}

/** What the spreadsheet that is to open a table is used to. */
export interface TableOptions {
  readonly delimiter?: CsvHabits["delimiter"];
  readonly decimals?: "," | ".";
  readonly byteOrderMark?: true;
  readonly guard?: boolean;
}

/** The forms of a result that has a table in it, the default one first. */
export const RESULT_FORMATS = ["text", "csv", "json"] as const;

export type ResultFormat = (typeof RESULT_FORMATS)[number];

export interface FormatOptions<Format extends string = ResultFormat> extends OutputOptions, TableOptions {
  readonly format?: Format;
}

export function addOutputOptions(
  command: Command,
  where = "write the result to a file, not to the screen",
): Command {
  return command
    .option("--json", "print the result as one JSON object")
    .option("--out <file>", where)
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

/** The format asked for, `otherwise` where none is; `--json` is short for `--format json`. */
export function formatOrElse<Format extends string>(
  { json, format }: { readonly json?: true; readonly format?: Format },
  otherwise: Format,
): Format | "json" {
  if (json && format !== undefined && format !== "json")
    throw new UsageError(`--json and --format ${format} exclude each other; give one of them`);
  return json ? "json" : (format ?? otherwise);
}

/** Whether a file is to be a workbook: its name says so. */
export const isWorkbook = (file: string | undefined): boolean => /\.xlsx$/iu.test(file ?? "");

/** The form that is asked for of a result. Throws a UsageError for what does not go together. */
export function formatOf<Format extends string>(options: FormatOptions<Format>): Format | ResultFormat {
  const { json, out } = options;
  const found = formatOrElse<Format | ResultFormat>(options, "text");
  if (isWorkbook(out) && found !== "csv")
    throw new UsageError(
      `--out ${out} is a workbook, which takes a table only; leave out ${json ? "--json" : "--format"}`,
    );
  return found;
}

/** The form that a file has by the end of its name; a workbook is a table as CSV is. */
const FORMS: readonly (readonly [ending: string, form: string])[] = [
  [".txt", "text"],
  [".csv", "csv"],
  [".xlsx", "csv"],
  [".json", "json"],
  [".html", "html"],
  [".md", "markdown"],
  [".svg", "svg"],
  [".xml", "junit"],
];

/**
 * `--format` of a command, the default form first. Where it is not given, the end of the `--out` file says which; throws a UsageError for an
 * end that stands for a form which the command does not have.
 */
export function addFormatName(command: Command, formats: readonly string[] = RESULT_FORMATS): Command {
  return command
    .option(
      "--format <name>",
      `one of ${formats.join(", ")} (default: by the end of the --out file, else ${formats[0]})`,
      oneOf(formats),
    )
    .hook("preAction", () => {
      const { out, json, format }: FormatOptions<string> = command.opts();
      if (json || format !== undefined) return;
      const form = formByName(command, out, formats);
      if (form !== null) command.setOptionValue("format", form);
    });
}

/** The form that an `--out` file has by its name, where that says one. Throws a UsageError for one that the command does not have. */
export function formByName(
  command: Command,
  out: string | undefined,
  forms: readonly string[],
): string | null {
  const found = FORMS.find(([ending]) => out?.toLowerCase().endsWith(ending));
  if (found === undefined || forms.includes(found[1])) return found?.[1] ?? null;
  const endings = FORMS.filter(([, form]) => forms.includes(form)).map(([ending]) => ending);
  throw new UsageError(
    `--out ${out}: ${command.name()} writes no ${found[0]}; ${eitherOf(endings)} is expected`,
  );
}

/** The same options with `--format json` as `--json`. Throws a UsageError also where habits of CSV are given for another form. */
export function withFormat<Options extends FormatOptions<string>>(options: Options): Options {
  const found = formatOf(options);
  const { delimiter, decimals, byteOrderMark } = options;
  const given =
    delimiter !== undefined
      ? "--delimiter"
      : decimals !== undefined
        ? "--decimals"
        : byteOrderMark && "--byte-order-mark";
  if (given && found !== "csv") throw new UsageError(`${given} goes with --format csv`);
  return asJson(options);
}

/** The same where such options say how the input is divided. */
export const asJson = <Options extends FormatOptions<string>>(options: Options): Options =>
  formatOf(options) === "json" ? { ...options, json: true } : options;

/** Gives a finished result to where the user wants it. */
export async function emit(
  context: Context,
  content: string | Uint8Array,
  options: OutputOptions,
): Promise<void> {
  if (options.out !== undefined)
    await context.writeText(options.out, content, { force: options.force === true });
  else if (typeof content === "string") context.print(content);
}

/**
 * Tells the faults for which an input is refused: as JSON where that is asked for, else as text on standard error. What goes to a file is told
 * there as well, as status 2 never comes without a word.
 */
export async function emitRefusal(
  context: Context,
  command: string,
  faults: readonly Finding[],
  options: OutputOptions,
  tell: () => void,
): Promise<void> {
  if (options.json) await emit(context, refusedJson(command, faults), options);
  if (!options.json || options.out !== undefined) tell();
}

/** Refuses options that exclude each other, by name. */
export function refuseTogether(one: [string, unknown], two: [string, unknown]): void {
  if (one[1] !== undefined && two[1] !== undefined) {
    throw new UsageError(`${one[0]} and ${two[0]} exclude each other; give one of them`);
  }
}
