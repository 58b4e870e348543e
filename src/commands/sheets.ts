import { PlanChecker } from "../answer/balance/check-against-line.js";
import { answerSheets, type Sheet, type SheetsAnswer } from "../answer/sheets/answer-sheets.js";
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
import { stationNamed } from "./named-by-option.js";

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
  const { policy } = found.line;
  // What the policy asks of the least takes a search, and changes no sheet.
  const line = { ...found.line, policy: { ...policy, maxAboveLeast: null } };
  const against = { asRead: loaded.line, line, pace: found.pace, findings: loaded.findings };
  const checker = new PlanChecker(against, { nodes: 0, checkpoint: () => null });
  const standing = await checker.check(reading, lineFileOf(context, planPath, path));
  const { findings } = standing.checked;
  const fingerprint = reading.madeFor?.fingerprint ?? null;
  const about = { planFile: file.path, fingerprint, date: options.date ?? null, asRead: loaded.line };
  const answer = answerSheets(
    line,
    found.pace,
    { ...standing, findings: [...checker.lineFindings, ...findings] },
    about,
  );
  if (!asked.json) {
    loaded.tell(loaded.findings, false);
    const told = findings.filter(({ severity }) => severity !== "note");
    context.note(formatFindings(told, new Map([[file.path, file.text]]), context.noteWidth));
  }
  const { sheets, training } = chosen(answer, options);
  if (isFolder) await writeFolder(context, answer, { sheets, training }, format, options);
  else await emit(context, textOf(answer, sheets, training, format), options);
  return hasErrors(answer.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

interface Chosen {
  readonly sheets: readonly Sheet[];
  readonly training: TrainingMatrix | null;
}

/** The sheets that are asked for; all of them unless one is named. */
function chosen(answer: SheetsAnswer, { station, training }: SheetsOptions): Chosen {
  if (training) {
    if (answer.training !== null) return { sheets: [], training: answer.training };
    throw new UsageError(
      "--training: no task of this line needs a skill, and nobody has one; give tasks `skill` and the line `people`",
    );
  }
  if (station === undefined) return answer;
  const { id } = stationNamed(answer.plan, station);
  const isOf = (sheet: Sheet) => sheet.id === id || sheet.id.startsWith(`${id}, station `);
  return { sheets: answer.sheets.filter(isOf), training: null };
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
  { sheets, training }: Chosen,
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
