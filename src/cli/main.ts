import { readFileSync } from "node:fs";
import { CommanderError } from "commander";
import { InterruptedError, type Register, UnfinishedError, UsageError } from "../commands/context.js";
import { EXIT_STATUS, type ExitStatus } from "../commands/exit-status.js";
import { visibleText } from "../findings/visible-text.js";
import type { Io } from "./io.js";
import { asAsked, type Interrupt, openContext, type Wrap } from "./open-context.js";
import { Outlet } from "./outlet.js";
import { loadCommands, readCommandLine } from "./program.js";

export { processIo } from "./io.js";

/** Gives the commands that a command line may call. */
type LoadCommands = (args: Io["args"]) => Promise<readonly Register[]>;

/**
 * Runs the program once and returns its exit status, after all output has arrived. Never throws: wrong usage is told
 * on stderr (status 2), and so is any fault of our own (status 3).
 */
export async function main(io: Io, load: LoadCommands = loadCommands): Promise<ExitStatus> {
  const [out, err] = [new Outlet(io.stdout), new Outlet(io.stderr)];
  const interrupt = watchInterrupt(io, (text) => err.write(text));
  const status = await run(io, out, err, interrupt, load);
  const trouble = await out.settle();
  if (trouble !== null) err.write(`error: standard output could not be written: ${trouble}\n`);
  const silenced = await err.settle();
  interrupt.release();
  return trouble === null && silenced === null ? status : EXIT_STATUS.couldNotFinish;
}

async function run(
  io: Io,
  out: Outlet,
  err: Outlet,
  interrupt: Interrupt,
  load: LoadCommands,
): Promise<ExitStatus> {
  const wrap = await loadWrap(io);
  const context = openContext(io, out, err, interrupt, wrap);
  try {
    const { width, print, note } = context;
    const commands = await load(io.args);
    const perform = readCommandLine(io.args, { version: readVersion(), commands, width, print, note });
    return perform === null ? EXIT_STATUS.fine : await perform(context);
  } catch (error) {
    const { text, status } = tell(error, io.env);
    err.write(wrap(asAsked(io.stderr, io.env), text));
    return status;
  }
}

/** Loaded only where there is a terminal: in a pipe nothing is broken. */
async function loadWrap({ stdout, stderr }: Io): Promise<Wrap> {
  if (stdout.isTTY !== true && stderr.isTTY !== true) return (_, text) => text;
  return (await import("./wrap-for-terminal.js")).wrapForTerminal;
}

function readVersion(): string {
  const description = readFileSync(new URL("../../package.json", import.meta.url), "utf8");
  return (JSON.parse(description) as { version: string }).version;
}

function tell(error: unknown, env: Io["env"]): { text: string; status: ExitStatus } {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return { text: "", status: EXIT_STATUS.fine };
    return { text: tellUsage(error), status: EXIT_STATUS.wrongInput };
  }
  if (error instanceof UsageError)
    return { text: `error: ${error.message}\n`, status: EXIT_STATUS.wrongInput };
  if (error instanceof UnfinishedError)
    return { text: `error: ${error.message}\n`, status: EXIT_STATUS.couldNotFinish };
  if (error instanceof InterruptedError) return { text: "", status: EXIT_STATUS.interrupted };
  return { text: tellFault(error, env), status: EXIT_STATUS.couldNotFinish };
}

/** Our own fault, in two lines; where it came from only when asked for. */
function tellFault(error: unknown, env: Io["env"]): string {
  const [message = ""] = (error instanceof Error ? error.message : String(error)).split("\n");
  const trace = error instanceof Error && (env.LINEPOISE_DEBUG ?? "") !== "" ? `${error.stack}\n` : "";
  return [
    `linepoise failed: ${visibleText(message)}`,
    "This is an error in linepoise. Please report it with the command and its files; LINEPOISE_DEBUG=1 shows where.",
    trace,
  ].join("\n");
}

interface WatchedInterrupt extends Interrupt {
  /** Stops listening. */
  release(): void;
}

const NOTE = "\nInterrupted: ending with the best so far. Ctrl-C again ends at once.\n";
const WATCHED = "\nInterrupted: the files are no longer watched.\n";

/** Ctrl-C asks for an orderly end. */
function watchInterrupt(io: Io, note: (text: string) => void): WatchedInterrupt {
  const controller = new AbortController();
  const { signal } = controller;
  const release = io.onInterrupt(() => {
    controller.abort();
    note(watched.isWaiting ? WATCHED : NOTE);
  });
  const watched: WatchedInterrupt = { signal, isWaiting: false, release };
  return watched;
}

/** What to do about a fault of the command line, by the code that the parser gives it. */
const ADVICE: Readonly<Record<string, string>> = {
  "commander.excessArguments": "Put a value that has spaces in quotes.",
  "commander.unknownCommand": "linepoise --help lists the commands.",
  "commander.missingArgument": "linepoise help and the name of the command show what it takes.",
  "commander.unknownOption": "linepoise help and the name of the command show its options.",
};

/** A fault of the command line for stderr: what was found, what is near, where to read on. Empty when help was shown. */
function tellUsage(error: CommanderError): string {
  if (error.code === "commander.help") return "";
  const lines = error.message.split("\n");
  const advice = ADVICE[error.code];
  const suggested = lines.length > 1;
  return [...lines, ...(advice === undefined || suggested ? [] : [advice])]
    .map((line) => `${line}\n`)
    .join("");
}
