import type { EventEmitter } from "node:events";
import { Command, CommanderError, type Option } from "commander";
import type { Perform, Register } from "../commands/context.js";
import { visibleText } from "../findings/visible-text.js";

/** A command that is loaded when it is called. */
interface LoadedWhenCalled {
  readonly name: string;
  load(): Promise<Register>;
}

/** The commands, in the order of the help. */
const COMMANDS: readonly LoadedWhenCalled[] = [
  { name: "takt", load: async () => (await import("../commands/takt.js")).registerTakt },
  { name: "balance", load: async () => (await import("../commands/balance.js")).registerBalance },
  { name: "off-line", load: async () => (await import("../commands/off-line.js")).registerOffLine },
  { name: "compare", load: async () => (await import("../commands/compare.js")).registerCompare },
  { name: "rebalance", load: async () => (await import("../commands/rebalance.js")).registerRebalance },
  { name: "staff", load: async () => (await import("../commands/staff.js")).registerStaff },
  { name: "ramp", load: async () => (await import("../commands/ramp.js")).registerRamp },
  { name: "simulate", load: async () => (await import("../commands/simulate.js")).registerSimulate },
  { name: "check", load: async () => (await import("../commands/check.js")).registerCheck },
  { name: "show", load: async () => (await import("../commands/show.js")).registerShow },
  { name: "chart", load: async () => (await import("../commands/chart.js")).registerChart },
  { name: "report", load: async () => (await import("../commands/report.js")).registerReport },
  { name: "parts", load: async () => (await import("../commands/parts.js")).registerParts },
  { name: "sheets", load: async () => (await import("../commands/sheets.js")).registerSheets },
  { name: "study", load: async () => (await import("../commands/study.js")).registerStudy },
  { name: "import", load: async () => (await import("../commands/import.js")).registerImport },
  { name: "order", load: async () => (await import("../commands/order.js")).registerOrder },
  { name: "export", load: async () => (await import("../commands/export.js")).registerExport },
  { name: "new", load: async () => (await import("../commands/new.js")).registerNew },
  { name: "schema", load: async () => (await import("../commands/schema.js")).registerSchema },
  { name: "completion", load: async () => (await import("../commands/completion.js")).registerCompletion },
  { name: "help", load: async () => (await import("../commands/help.js")).registerHelp },
];

/** Commands that speak of the others. */
const OF_ALL: ReadonlySet<string | undefined> = new Set(["completion", "help"]);

/** The commands that this command line needs: the one it names, none for the version, all for the help and for wrong names. */
export function loadCommands([word]: readonly string[]): Promise<Register[]> {
  if (word === "--version" || word === "-V") return Promise.resolve([]);
  const named = OF_ALL.has(word) ? [] : COMMANDS.filter(({ name }) => name === word);
  return Promise.all((named.length > 0 ? named : COMMANDS).map((each) => each.load()));
}

const NOTES = `
Data goes to standard output, everything else to standard error; - stands for
standard input or output.

Exit status:
  0    fine
  1    the answer is no: no balance is feasible, a plan does not hold
  2    wrong input or usage
  3    could not finish
  130  interrupted; the best so far is printed first

Environment:
  NO_COLOR     when not empty, no colours; wins over FORCE_COLOR
  FORCE_COLOR  0 for no colours, anything else for colours even in a pipe`;

export interface ProgramParts {
  readonly version: string;
  readonly commands: readonly Register[];
  /** Columns of the help. */
  readonly width: number;
  /** Takes the help and the version when they are asked for. */
  print(text: string): void;
  /** Takes the help when it is an answer to wrong usage. */
  note(text: string): void;
}

/** What the command line asks for; null when it asked for the help or the version only. Throws a CommanderError that is safe to print. */
export function readCommandLine(args: readonly string[], parts: ProgramParts): Perform | null {
  try {
    return parse(args, parts, true);
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    const told = error.code === LACKS_OPTION ? (unknownOption(args, parts) ?? error) : error;
    throw new CommanderError(told.exitCode, told.code, printable(told.message));
  }
}

const LACKS_OPTION = "commander.missingMandatoryOptionValue";

/** An option that does not exist, where one is missing as well: that is the slip, and what is near may be the missing one. Else null. */
function unknownOption(args: readonly string[], parts: ProgramParts): CommanderError | null {
  try {
    parse(args, parts, false);
  } catch (error) {
    if (error instanceof CommanderError && error.code === "commander.unknownOption") return error;
  }
  return null;
}

/** @param isWhole options that a command needs must be there */
function parse(args: readonly string[], parts: ProgramParts, isWhole: boolean): Perform | null {
  let asked: Perform | null = null;
  const program = configure(new Command("linepoise"), parts);
  for (const register of parts.commands) {
    register(program, (perform) => {
      asked = perform;
    });
  }
  for (const command of program.commands) {
    refuseDoubledOptions(command);
    if (!isWhole) for (const option of command.options) option.mandatory = false;
  }
  program.parse(isCalled(program, args[0]) ? args : args.slice(0, 1), { from: "user" });
  return asked;
}

/** A message of the parser with words of the command line that are safe to print; only what is near stands in a line of its own. */
function printable(message: string): string {
  const near = /\n\(Did you mean [^\n]+\?\)$/u.exec(message)?.[0] ?? "";
  const told = message.slice(0, message.length - near.length);
  return visibleText(told) + near.slice(0, 1) + visibleText(near.slice(1));
}

/** Whether a command line begins with an option or a command. Where not, that word alone is judged: there is no help on what does not exist. */
const isCalled = ({ commands }: Command, word: string | undefined): boolean =>
  word === undefined || word.startsWith("-") || commands.some((each) => each.name() === word);

function configure(program: Command, parts: ProgramParts): Command {
  return program
    .description("Balances assembly lines from plain text files.")
    .version(parts.version, "-V, --version", "print the version")
    .helpOption("-h, --help", "print help for a command")
    .addHelpText("after", NOTES)
    .exitOverride()
    .configureOutput({
      writeOut: parts.print,
      writeErr: parts.note,
      // Faults are thrown and told in one place, see main.ts.
      outputError: () => {},
      getOutHelpWidth: () => parts.width,
      getErrHelpWidth: () => parts.width,
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    });
}

/** Makes a command refuse an option that is given twice, and an option that was taken for the value of another. */
function refuseDoubledOptions(command: Command): void {
  // A command tells of every option it meets as an event, which its published types leave out in part.
  const events = command as unknown as EventEmitter;
  for (const option of command.options) {
    let seen = 0;
    // Before the listener that reads the value: what is said here explains more than "not a number".
    events.prependListener(`option:${option.name()}`, (value: string | undefined) => {
      seen += 1;
      if (seen > 1 && !isCollected(option))
        command.error(`error: option '${option.flags}' is given twice`, { code: "linepoise.twice" });
      if (isOption(command, value)) command.error(swallowed(option, value!), { code: "linepoise.swallowed" });
    });
  }
}

/** An option that may be given again starts with an empty list. */
const isCollected = ({ defaultValue }: Option): boolean =>
  Array.isArray(defaultValue) && defaultValue.length === 0;

function isOption(command: Command, value: string | undefined): boolean {
  return command.options.some(
    (option) => value !== undefined && (value === option.long || value === option.short),
  );
}

function swallowed(option: Option, value: string): string {
  const flag = option.long ?? option.flags;
  return `error: option '${option.flags}' needs its value before ${value} (for a value of that name, write ${flag}=${value})`;
}
