import {
  type ChosenSheets,
  checkAndAnswer,
  chooseSheets,
  type Sheet,
  type SheetsAnswer,
} from "../answer/sheets/answer-sheets.js";
import type { TrainingMatrix } from "../answer/sheets/training-matrix.js";
import { hasErrors } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { sheetsPage } from "../report/html/sheets-page.js";
import { sheetsJson } from "../report/json/sheets-json.js";
import { sheetsMarkdown } from "../report/markdown/sheets-markdown.js";
import { lineFileOf } from "./check-baseline.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addFormatName,
  addOutputOptions,
  checkOutput,
  emit,
  formatOrElse,
  type OutputOptions,
  refuseSameFile,
  refuseTogether,
} from "./emit.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption } from "./find-pace.js";
import { loadPacedLine } from "./load-paced-line.js";
import { readNamed, readOrRefuse } from "./load-plan.js";

const FORMATS = ["html", "markdown", "json"] as const;
type Format = (typeof FORMATS)[number];

interface SheetsOptions extends OutputOptions {
  readonly station?: string;
  readonly training?: true;
  readonly date?: string;
  readonly cycle?: string;
  readonly demand?: string;
  readonly format?: Format;
}

export const registerSheets: Register = (program, act) => {
  const command = program
    .command("sheets")
    .description("sheets to print: one for each station and bench of a plan, and the training matrix")
    .argument("<line>", "line file; - for standard input")
    .argument("<plan>", "plan file")
    .option("--station <id>", "the sheet of this station or bench only")
    .option("--training", "the training matrix only")
    .option("--date <text>", "a date to print on every sheet; none is printed otherwise")
    .addOption(cycleOption())
    .addOption(demandOption());
  addOutputOptions(
    addFormatName(command, FORMATS),
    "write them to a file, or each to a file of its own: a folder, with / at its end",
  ).action((path: string, plan: string, options: SheetsOptions) =>
    act((context) => makeSheets(context, path, plan, options)),
  );
};

async function makeSheets(
  context: Context,
  path: string,
  planPath: string,
  options: SheetsOptions,
): Promise<ExitStatus> {
  const format = formatOrElse<Format>(options, "html");
  const asked = { ...options, ...(format === "json" && { json: true as const }) };
  refuseTogether(["--station", options.station], ["--training", options.training]);
  const isFolder = options.out?.endsWith("/") ?? false;
  if (isFolder && format === "json")
    throw new UsageError(`--out "${options.out}" is a folder, for sheets to print; give a file for JSON`);
  if (!isFolder) {
    await checkOutput(context, path, options);
    if (options.out !== undefined) refuseSameFile(context, ["--out", options.out], ["the plan", planPath]);
  }
  const paced = await loadPacedLine(context, "sheets", path, asked);
  if (paced === null) return EXIT_STATUS.wrongInput;
  const { loaded, found } = paced;
  const file = await readNamed(context, planPath);
  const reading = await readOrRefuse(context, "sheets", file, found.line, asked);
  if (reading === null) return EXIT_STATUS.wrongInput;
  const against = { ...found, asRead: loaded.line, findings: loaded.findings };
  const { date = null } = options;
  const { answer, findings } = await checkAndAnswer(
    against,
    reading,
    lineFileOf(context, planPath, path),
    date,
  );
  if (!asked.json) {
    loaded.tell(loaded.findings, false);
    const told = findings.filter(({ severity }) => severity !== "note");
    context.note(formatFindings(told, new Map([[file.path, file.text]]), context.noteWidth));
  }
  const chosen = chooseSheets(answer, options);
  if (!chosen.ok) throw new UsageError(`--${chosen.problem}`);
  const { sheets, training } = chosen.value;
  if (isFolder) await writeFolder(context, answer, { sheets, training }, format, options);
  else await emit(context, textOf(answer, sheets, training, format), options);
  return hasErrors(answer.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

function textOf(
  answer: SheetsAnswer,
  sheets: readonly Sheet[],
  training: TrainingMatrix | null,
  format: Format,
): string {
  if (format === "json") return sheetsJson(answer, sheets, training);
  return format === "html" ? sheetsPage(answer, sheets, training) : sheetsMarkdown(answer, sheets, training);
}

/** One file a sheet, and one for the training matrix; nothing is written where one of them may not be. */
async function writeFolder(
  context: Context,
  answer: SheetsAnswer,
  { sheets, training }: ChosenSheets,
  format: Format,
  options: SheetsOptions,
): Promise<void> {
  const ending = format === "html" ? "html" : "md";
  const names = fileNames([...sheets.map(({ id }) => id), ...(training === null ? [] : ["training"])]);
  const files = [
    ...sheets.map((sheet) => textOf(answer, [sheet], null, format)),
    ...(training === null ? [] : [textOf(answer, [], training, format)]),
  ].map((content, at) => ({ path: `${options.out}${names[at]}.${ending}`, content }));
  await context.writeTexts(files, { force: options.force === true });
  context.note(`${files.length} files in ${options.out}\n`);
}

/** Names that every file system takes, each once: what is neither letter nor digit becomes a hyphen. */
function fileNames(ids: readonly string[]): string[] {
  const taken = new Set<string>();
  return ids.map((id) => {
    const plain =
      id
        .normalize("NFC")
        .replaceAll(/[^\p{L}\p{N}._-]+/gu, "-")
        .replace(/^[.-]+/u, "") || "sheet";
    let name = plain;
    for (let more = 2; taken.has(name.toLowerCase()); more++) name = `${plain}-${more}`;
    taken.add(name.toLowerCase());
    return name;
  });
}
