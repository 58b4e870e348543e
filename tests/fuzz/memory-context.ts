import { CommanderError } from "commander";
import { decodeText } from "../../src/cli/decode-text.js";
import { loadCommands, readCommandLine } from "../../src/cli/program.js";
import { type Context, InterruptedError, type Register, UsageError } from "../../src/commands/context.js";
import { EXIT_STATUS } from "../../src/commands/exit-status.js";
import { nearestWords } from "../../src/findings/nearest.js";
import type { Case } from "./case.js";

/** What a run of the program left behind. */
export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
  /** Files that were written, by name. */
  readonly written: ReadonlyMap<string, string | Uint8Array>;
  /** What was thrown that no user may see; null where nothing was. */
  readonly thrown: unknown;
}

let tellRun = () => {};

/** Calls a function whenever the program is run. */
export function onRun(tell: () => void): void {
  tellRun = tell;
}

const commandsByName = new Map<string, Promise<Register[]>>();

/** The program on files in memory: everything behind a command line but streams, files and signals. */
export async function runInMemory({ args, files }: Case, isColoured = false): Promise<Ran> {
  tellRun();
  const [stdout, stderr]: string[][] = [[], []];
  const written = new Map<string, string | Uint8Array>();
  const context = memoryContext(files, written, isColoured, stdout!, stderr!);
  const ended = (status: number, thrown: unknown = null): Ran => ({
    status,
    stdout: stdout!.join(""),
    stderr: stderr!.join(""),
    written,
    thrown,
  });
  try {
    const word = args[0] ?? "";
    const commands = commandsByName.get(word) ?? loadCommands(args);
    commandsByName.set(word, commands);
    const perform = readCommandLine(args, {
      version: "0.0.0",
      commands: await commands,
      width: 80,
      print: (text) => stdout!.push(text),
      note: (text) => stderr!.push(text),
    });
    return ended(perform === null ? EXIT_STATUS.fine : await perform(context));
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return ended(EXIT_STATUS.fine);
      stderr!.push(error.message);
      return ended(EXIT_STATUS.wrongInput);
    }
    if (error instanceof UsageError) {
      stderr!.push(`error: ${error.message}\n`);
      return ended(EXIT_STATUS.wrongInput);
    }
    if (error instanceof InterruptedError) return ended(EXIT_STATUS.interrupted);
    return ended(EXIT_STATUS.couldNotFinish, error);
  }
}

function memoryContext(
  files: Case["files"],
  written: Map<string, string | Uint8Array>,
  isColoured: boolean,
  stdout: string[],
  stderr: string[],
): Context {
  const bytesOf = (path: string): Uint8Array => {
    const content = written.get(path) ?? (Object.hasOwn(files, path) ? files[path] : undefined);
    if (content === undefined)
      throw new UsageError(`there is no file ${path}${nearestWords(path, Object.keys(files))}`);
    return typeof content === "string" ? Buffer.from(content) : content;
  };
  const isThere = (path: string) => written.has(path) || Object.hasOwn(files, path);
  const refuse = (path: string, force: boolean) => {
    if (isThere(path) && !force) throw new UsageError(`${path} exists; --force replaces it`);
  };
  return {
    readText: async (path) => decodeText(bytesOf(path), path),
    readBytes: async (path) => bytesOf(path),
    findFiles: async (pattern) => [pattern],
    readAtRevision: async () => null,
    readExisting: async (path) => (isThere(path) ? decodeText(bytesOf(path), path) : null),
    async writeText(path, content, { force }) {
      if (path === "-") {
        if (typeof content === "string") stdout.push(content);
        return;
      }
      refuse(path, force);
      written.set(path, content);
    },
    async writeTexts(all, { force }) {
      for (const { path } of all) refuse(path, force);
      for (const { path, content } of all) written.set(path, content);
    },
    checkTarget: async (path, { force }) => refuse(path, force),
    isSameFile: (one, other) => one === other,
    pathFrom: (_, to) => to,
    watchFiles: () => async () => false,
    print: (text) => stdout.push(text),
    printLines: (text) => stdout.push(text),
    note: (text) => stderr.push(text),
    width: 100,
    noteWidth: 100,
    colour: isColoured,
    progressWidth: 0,
    now: () => 0,
    breathe: async () => {},
    interrupted: () => false,
  };
}
