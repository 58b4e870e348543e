import { parse } from "csv-parse/sync";
import { unzipSync } from "fflate";
import * as z from "zod";
import type { Case, Outcome } from "./case.js";
import { faultOfAgreement } from "./judge-agreement.js";
import { NEW_PLAN } from "./make-args.js";
import { type Ran, runInMemory } from "./memory-context.js";

/** Runs an input and says what is wrong with what came of it. */
export async function judgeCase(given: Case): Promise<Outcome> {
  const ran = await runInMemory(given);
  const failure =
    faultOf(given, ran) ?? (await faultOfPlan(given, ran)) ?? (await faultOfAgreement(given, ran));
  return { status: ran.status, failure };
}

function faultOf(given: Case, ran: Ran): string | null {
  const { status, stdout, stderr, thrown, written } = ran;
  if (thrown !== null) return `thrown: ${thrown instanceof Error ? thrown.stack : String(thrown)}`;
  if (![0, 1, 2].includes(status)) return `status ${status}`;
  // An answer of "no" may go to a file, and what `check` finds of any plan; what is refused is told on the screen.
  const isTold =
    `${stdout}${stderr}`.trim() !== "" || ((status === 1 || given.args[0] === "check") && written.size > 0);
  if (status !== 0 && !isTold) return `status ${status} without a word`;
  const raw =
    unseenIn("standard error", stderr) ?? unseenIn("standard output", stdout, formOf(given.args) === "csv");
  if (raw !== null) return raw;
  for (const [name, content] of written) {
    // Files that the user wrote keep the bytes that are not changed.
    if (typeof content !== "string" || Object.hasOwn(given.files, name)) continue;
    const inFile = unseenIn(name, content, name.endsWith(".csv"));
    if (inFile !== null) return inFile;
  }
  return strayWord(given, `${stdout}${stderr}`) ?? faultOfForm(given, ran);
}

/** Everything but line feeds and tabs that acts on a terminal, hides or turns the direction of text. */
const UNSEEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is the purpose
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]|\p{Surrogate}/u;

/** @param isCsv cells of CSV may have line ends of any kind (RFC 4180) */
function unseenIn(where: string, text: string, isCsv = false): string | null {
  const found = UNSEEN.exec(isCsv ? text.replaceAll("\r", "") : text.replaceAll("\r\n", "\n"));
  if (found === null) return null;
  const around = JSON.stringify(text.slice(Math.max(0, found.index - 30), found.index + 30));
  return `raw U+${found[0].charCodeAt(0).toString(16).padStart(4, "0")} in ${where}: ${around}`;
}

/** Words that only a program's own slip writes, where the input does not hold them. */
function strayWord(given: Case, text: string): string | null {
  // Pages have a script of their own.
  const output = text.replaceAll(/<script>.*?<\/script>/gsu, "");
  const found = /\bundefined\b|\bNaN\b|\[object |\bInfinity\b|^\s+at \S.*:\d+:\d+\)?$/mu.exec(output);
  if (found === null) return null;
  const input = `${given.args.join(" ")} ${Object.values(given.files)
    .map((each) => Buffer.from(each).toString("utf8"))
    .join(" ")}`;
  if (input.includes(found[0])) return null;
  return `${found[0].trim()} in the output: ${JSON.stringify(output.slice(Math.max(0, found.index - 60), found.index + 40))}`;
}

const FORMS: Readonly<Record<string, string>> = { md: "markdown", xlsx: "workbook", txt: "text" };

const wordAfter = (args: readonly string[], option: string): string | null => {
  const at = args.indexOf(option);
  return at < 0 ? null : (args[at + 1] ?? null);
};

function formOf(args: readonly string[]): string {
  const end = /\.([a-z]+)$/u.exec(wordAfter(args, "--out") ?? "")?.[1];
  if (end === "xlsx") return "workbook";
  if (args.includes("--json")) return "json";
  const format = wordAfter(args, "--format");
  if (format !== null) return format;
  if (end !== undefined) return FORMS[end] ?? end;
  if (args[0] === "sheets" || args[0] === "report") return "html";
  return args[0] === "export" ? "csv" : "text";
}

function faultOfForm({ args }: Case, { stdout, status, written }: Ran): string | null {
  const form = formOf(args);
  const isRefused = status === 2;
  const out = wordAfter(args, "--out");
  // What `import` writes is a line file.
  const answer = out === null || args[0] === "import" ? stdout : written.get(out);
  if (answer === undefined || typeof answer !== "string")
    return answer === undefined || isRefused ? null : faultOfWorkbook(answer);
  if (WORDS.has(args[0]!)) return null;
  if (form === "json") return answer === "" && isRefused ? null : faultOfJson(args[0]!, answer);
  if (isRefused) return null;
  if (form === "csv") return faultOfCsv(args, answer);
  return form === "html" || form === "svg" || form === "junit" ? faultOfMarkup(answer) : null;
}

/** Commands that print what a user may read whole in the source. */
const WORDS: ReadonlySet<string> = new Set(["new", "schema", "completion", "help"]);

/** A workbook opens, and names stay text in it. */
function faultOfWorkbook(bytes: Uint8Array): string | null {
  for (const [part, content] of Object.entries(unzipSync(bytes))) {
    const text = Buffer.from(content).toString("utf8");
    const fault = unseenIn(part, text) ?? faultOfMarkup(text);
    if (fault !== null) return fault;
    if (/<f[ >]/u.test(text)) return `a formula in ${part}`;
  }
  return null;
}

const seconds = z.number().or(z.null());
/** What every result has in common; times, shares and counts are numbers that JSON can hold, so null only where nothing is known. */
const result = z.looseObject({
  format: z.literal("linepoise/1"),
  command: z.string(),
  findings: z
    .array(
      z.looseObject({
        rule: z.string().min(1),
        severity: z.enum(["error", "warning", "note"]),
        message: z.string().min(1),
        file: z.string().nullable(),
        line: z.int().positive().nullable(),
        column: z.int().positive().nullable(),
        station: z.string().nullable(),
        task: z.string().nullable(),
      }),
    )
    .optional(),
});

function faultOfJson(command: string, text: string): string | null {
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch (error) {
    return `JSON does not parse: ${error instanceof Error ? error.message : error}: ${JSON.stringify(text.slice(0, 80))}`;
  }
  const read = result.safeParse(content);
  if (!read.success)
    return `JSON does not fit: ${read.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`).join("; ")}`;
  if (read.data.command !== command) return `JSON is said to be of ${read.data.command}`;
  return faultOfTimes(content, "");
}

/** Times are numbers or null wherever they stand. */
function faultOfTimes(value: unknown, path: string): string | null {
  if (typeof value !== "object" || value === null) return null;
  for (const [key, inside] of Object.entries(value)) {
    if (
      key.endsWith("Seconds") &&
      !Array.isArray(inside) &&
      typeof inside !== "object" &&
      !seconds.safeParse(inside).success
    )
      return `JSON: ${path}.${key} is ${JSON.stringify(inside)}`;
    // By the keys of figures, why they are not ranked.
    if (key === "unranked") continue;
    const deeper = faultOfTimes(inside, `${path}.${key}`);
    if (deeper !== null) return deeper;
  }
  return null;
}

const DELIMITERS: Readonly<Record<string, string>> = { comma: ",", semicolon: ";", tab: "\t", pipe: "|" };

const READS_TABLES: ReadonlySet<string> = new Set(["study", "import", "order"]);

/** Cells that a spreadsheet would work out: a formula of a name is guarded, numbers are as they are. */
function faultOfCsv(args: readonly string[], text: string): string | null {
  // Of a table that is read it says how that one is written.
  const at = READS_TABLES.has(args[0]!) ? -1 : args.indexOf("--delimiter");
  const isComma = !READS_TABLES.has(args[0]!) && wordAfter(args, "--decimals") === "comma";
  const delimiter = at < 0 ? (isComma ? ";" : ",") : (DELIMITERS[args[at + 1]!] ?? ",");
  let rows: string[][];
  try {
    rows = parse(text.replace(/^\ufeff/u, ""), { delimiter, relax_column_count: true });
  } catch (error) {
    return `CSV does not parse: ${error instanceof Error ? error.message : error}`;
  }
  const formula = args.includes("--no-guard")
    ? undefined
    : rows.flat().find((cell) => /^[=+@\t\r]|^-(?!\d+(?:[.,]\d+)?(?: ?%)?$|-?$|[\d.]+ )/u.test(cell));
  return formula === undefined ? null : `CSV has a formula: ${JSON.stringify(formula.slice(0, 60))}`;
}

/** Names that look like markup must not become any. */
function faultOfMarkup(text: string): string | null {
  const found = /<(?:i|script)>zz|<!--zz|<zz|&zz;|\]\]>/u.exec(text);
  return found === null
    ? null
    : `markup of a name: ${JSON.stringify(text.slice(Math.max(0, found.index - 40), found.index + 40))}`;
}

/** What `check` asks of a plan beside its holding. */
const NO_FAULT_OF_PLAN = /^(?:policy|supply|max-|min-)/u;

/** The plan of an answer must pass `check` at the pace that it was made for. */
async function faultOfPlan({ args, files }: Case, { written, status }: Ran): Promise<string | null> {
  const plan = written.get(NEW_PLAN);
  if (plan === undefined || status === 2) return null;
  const pace = ["--cycle", "--demand"].flatMap((option) => {
    const at = args.indexOf(option);
    return at < 0 ? [] : args.slice(at, at + 2);
  });
  const cycle = /line-cycle: (?:"([^"]+)"|([^,}\n]+))/u.exec(String(plan));
  // A line without any work has no pace that could be asked for.
  if (args.includes("--stations") && (cycle?.[1] ?? cycle?.[2]) === "0 s") return null;
  const asked = args.includes("--stations") ? ["--cycle", cycle?.[1] ?? cycle?.[2] ?? ""] : pace;
  const checked = await runInMemory({
    args: ["check", args[1]!, NEW_PLAN, ...asked, "--json", "--nodes", "10"],
    files: { ...files, [NEW_PLAN]: plan },
  });
  if (checked.thrown !== null) return `check of the plan: ${(checked.thrown as Error).stack}`;
  if (checked.status === 0) return null;
  const { findings = [] } = JSON.parse(checked.stdout === "" ? "{}" : checked.stdout) as {
    findings?: { rule: string; severity: string; message: string }[];
  };
  const faults = findings.filter(
    ({ rule, severity }) => severity === "error" && !NO_FAULT_OF_PLAN.test(rule),
  );
  if (checked.status !== 2 && faults.length === 0) return null;
  return `check refuses the plan of the answer: ${faults.map(({ rule, message }) => `${rule}: ${message}`).join("; ") || checked.stderr}`;
}
