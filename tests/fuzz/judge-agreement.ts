import type { Case } from "./case.js";
import { LINE, NEW_PLAN } from "./make-args.js";
import { type Ran, runInMemory } from "./memory-context.js";

/*
 * Commands that say the same of the same input: an answer that is sound in itself is held against another one. Each gives null where there is
 * nothing to compare.
 */

type Agreement = (given: Case, ran: Ran) => Promise<string | null>;

/** One of the agreements that concern the command, or none: each costs another answer. */
export async function faultOfAgreement(given: Case, ran: Ran): Promise<string | null> {
  if (given.beside === undefined || ran.status > 1) return null;
  const all = [again, inOtherForm, ...(OF_COMMANDS[given.args[0]!] ?? [])];
  return (await all[given.beside % (2 * all.length)]?.(given, ran)) ?? null;
}

/** The same bytes a second time. */
const again: Agreement = async (given, ran) => {
  const other = await runInMemory(given);
  const told = ({ status, stdout, stderr, written }: Ran) =>
    JSON.stringify([status, stdout, stderr, [...written].map(([name, text]) => [name, String(text)])]);
  return told(other) === told(ran) ? null : "the same input gives another answer";
};

/** Words of a command line that say where an answer goes and in which form, with those that have a value. */
const OF_FORM = new Set(["--json", "--force", "--byte-order-mark", "--no-guard"]);
const OF_FORM_WITH_VALUE = new Set(["--format", "--out", "--table"]);
const OF_CSV = new Set(["--delimiter", "--decimals"]);
const READS_TABLES = new Set(["study", "import", "order"]);

function withoutForm(args: readonly string[]): string[] {
  const left: string[] = [];
  for (let at = 0; at < args.length; at++) {
    const word = args[at]!;
    if (OF_FORM.has(word)) continue;
    const isOfCsv = OF_CSV.has(word) && !READS_TABLES.has(args[0]!);
    if (OF_FORM_WITH_VALUE.has(word) || isOfCsv) at++;
    else left.push(word);
  }
  return left;
}

/** The verdict does not depend on the form of the answer. */
const inOtherForm: Agreement = async ({ args, files }, { status }) => {
  if (args.includes("--watch") || NO_FORM.has(args[0]!)) return null;
  const plain = withoutForm(args);
  const other = args.includes("--json") ? plain : [...plain, "--json"];
  const ran = await runInMemory({ args: other, files });
  return ran.status === status
    ? null
    : `status ${status}, and ${ran.status} of linepoise ${other.join(" ")}: ${ran.stderr.slice(0, 300)}`;
};

const NO_FORM = new Set(["completion", "help", "new", "schema"]);

type Told = { readonly [key: string]: unknown };

async function ask(files: Case["files"], args: readonly string[]): Promise<Told | null> {
  const { stdout, status, thrown } = await runInMemory({ args: [...args, "--json"], files });
  if (thrown !== null) throw thrown;
  return status > 1 || stdout === "" ? null : (JSON.parse(stdout) as Told);
}

/** The options of a command line that say the pace. */
const paceOf = (args: readonly string[]): string[] =>
  ["--cycle", "--demand"].flatMap((option) => {
    const at = args.indexOf(option);
    return at < 0 ? [] : args.slice(at, at + 2);
  });

const differ = (what: string, one: unknown, other: unknown): string | null => {
  const [first, second] = [JSON.stringify(one ?? null), JSON.stringify(other ?? null)];
  return first === second ? null : `${what}: ${first.slice(0, 1_500)} and ${second.slice(0, 1_500)}`;
};

/** `show` says of the plan of an answer what `balance` said of it. */
const shownAlike: Agreement = async ({ args, files }, { written }) => {
  const plan = written.get(NEW_PLAN);
  if (plan === undefined || args.includes("--stations")) return null;
  const own = await ask(
    files,
    withoutForm(args).filter((word) => word !== "--explain"),
  );
  const shown = await ask({ ...files, [NEW_PLAN]: plan }, ["show", args[1]!, NEW_PLAN, ...paceOf(args)]);
  if (own === null || shown === null) return own === null ? null : "show refuses the plan of the answer";
  const keys = ["pace", "stations", "models", "cautions", "visits"] as const;
  const fault = keys.map((key) => differ(`${key} of the answer and of show`, own[key], shown[key]));
  // Where a plan is called from one with benches, the answer is of the line alone.
  const hasBenches = Array.isArray(shown.benches) && shown.benches.length > 0;
  const measures = hasBenches
    ? null
    : differ("measures of the answer and of show", own.measures, shown.measures);
  return measures ?? fault.find((each) => each !== null) ?? null;
};

/** From a plan that holds, a change to the pace it was made for takes no move. */
const staysAsItIs: Agreement = async ({ args, files }, { written }) => {
  const plan = written.get(NEW_PLAN);
  if (plan === undefined || args.includes("--stations")) return null;
  const strict = args.includes("--strict-limit") ? ["--strict-limit"] : [];
  const told = await ask({ ...files, [NEW_PLAN]: plan }, [
    ...["rebalance", args[1]!, "--from", NEW_PLAN, "--nodes", "40"],
    ...paceOf(args),
    ...strict,
  ]);
  const rows = (told?.tradeOffs ?? []) as readonly { readonly moves: readonly unknown[] }[];
  return rows.length === 0 || rows.some(({ moves }) => moves.length === 0)
    ? null
    : `no row of moves keeps a plan that holds at its own pace: ${JSON.stringify(rows).slice(0, 400)}`;
};

const sizeOf = (told: Told | null): number | null =>
  ((told?.measures as { readonly operators?: number } | null)?.operators ?? null) as number | null;

/** One ranking alone needs no fewer people than the best of all methods. */
const noWorseThanOneRule: Agreement = async ({ args, files }) => {
  if (["--stations", "--from", "--method"].some((word) => args.includes(word))) return null;
  const plain = withoutForm(args);
  const best = sizeOf(await ask(files, plain));
  const alone = sizeOf(await ask(files, [...plain, "--method", "positional-weight"]));
  return alone === null || (best !== null && best <= alone)
    ? null
    : `balance needs ${best} people, and by positional weights alone ${alone}`;
};

/** Characters of files that are balanced beside another answer; a plan of more takes longer than a look at it. */
const MOST_BALANCED = 100_000;

/** `takt` says the pace that `balance` balances for. */
const paceOfBalance: Agreement = async ({ args, files }) => {
  if (Object.values(files).some(({ length }) => length > MOST_BALANCED)) return null;
  const own = await ask(files, withoutForm(args));
  const other = await ask(files, [
    "balance",
    args[1]!,
    ...paceOf(args),
    "--method",
    "positional-weight",
    "--nodes",
    "10",
  ]);
  return own === null || other === null ? null : differ("pace of takt and of balance", own.pace, other.pace);
};

/** What is exported and read back into the line changes nothing of it. */
const readBack: Agreement = async ({ args, files }) => {
  const table = "back.csv";
  const { written } = await runInMemory({ args: ["export", args[1]!, "--out", table], files });
  const text = written.get(table);
  if (text === undefined || args[1] !== LINE) return null;
  const all = { ...files, [table]: text };
  const ran = await runInMemory({ args: ["import", table, "--into", LINE, "--json"], files: all });
  if (ran.status !== 0) return `the table of export is refused: ${ran.stdout.slice(0, 600)}`;
  const into = (JSON.parse(ran.stdout) as Told).into as { readonly tasks: readonly unknown[] };
  return into.tasks.length === 0
    ? null
    : `the table of export changes ${JSON.stringify(into.tasks).slice(0, 800)}`;
};

/** A plan is no worse than itself. */
const againstItself: Agreement = async ({ args, files }) => {
  const ran = await runInMemory({
    args: ["check", args[1]!, args[2]!, "--against", args[2]!, "--nodes", "40", ...paceOf(args)],
    files,
  });
  return ran.status === 1 ? `a plan is worse than itself: ${ran.stdout.slice(0, 600)}` : null;
};

/** `show` and `report` tell the same of a plan. */
const reportedAlike: Agreement = async ({ args, files }) => {
  const words = [args[1]!, args[2]!, ...paceOf(args)];
  const [shown, reported] = [await ask(files, ["show", ...words]), await ask(files, ["report", ...words])];
  if (shown === null || reported === null) return null;
  const keys = ["outcome", "pace", "measures", "stations", "benches", "models", "findings"] as const;
  return (
    keys
      .map((key) => differ(`${key} of show and of report`, shown[key], reported[key]))
      .find((each) => each !== null) ?? null
  );
};

const OF_COMMANDS: Readonly<Record<string, readonly Agreement[]>> = {
  balance: [shownAlike, staysAsItIs, noWorseThanOneRule],
  rebalance: [staysAsItIs],
  takt: [paceOfBalance],
  export: [readBack],
  check: [againstItself, reportedAlike],
  show: [reportedAlike],
  report: [reportedAlike],
};
