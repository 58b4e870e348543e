import type { Command } from "commander";
import type { CompareWork } from "../answer/compare/compare-options.js";
import { visibleText } from "../findings/visible-text.js";
import type { RunsBeside } from "../simulate/run-again-and-again.js";
import type { ExitStatus } from "./exit-status.js";

/** An error that is told in one line on stderr: whatever words of the command line are in it, nothing in it acts on a terminal. */
class ToldError extends Error {
  constructor(message: string) {
    super(visibleText(message));
  }
}

/** Wrong usage: the message goes to stderr, the status is 2 and stdout stays empty. Say what was expected. */
export class UsageError extends ToldError {}

/** Could not finish for a reason outside the command, such as a full disk: one line on stderr, status 3. */
export class UnfinishedError extends ToldError {}

/** Interrupted before there was anything to show: nothing is printed, status 130. */
export class InterruptedError extends Error {}

/** What a command may see and do; everything outside of it is computed. */
export interface Context {
  /**
   * The text of a file, `-` for standard input, without a byte order mark. Throws a UsageError that names what is
   * near for a file that is missing, unreadable, a folder or not UTF-8, and where `-` is read twice.
   */
  readText(path: string): Promise<string>;
  /** The bytes of a file that may be no text, `-` for standard input; the same faults of a path are told. */
  readBytes(path: string): Promise<Uint8Array>;
  /**
   * The files that a path with `*`, `**` or `?` fits, in a fixed order; any other path is itself. Throws a UsageError where none
   * does.
   */
  findFiles(pattern: string): Promise<string[]>;
  /**
   * The text of a file as it was at a revision of git; null where that revision does not have it. Throws a UsageError without git,
   * without a repository and for an unknown revision.
   */
  readAtRevision(revision: string, path: string): Promise<string | null>;
  /** The text that `writeText` would replace; null where there is no file yet, and for `-`. */
  readExisting(path: string): Promise<string | null>;
  /**
   * Writes a whole file at once or not at all; `-` is standard output, which takes text only. Throws a UsageError for a file that exists,
   * unless forced, and for a path that cannot be written.
   */
  writeText(path: string, content: string | Uint8Array, options: { readonly force: boolean }): Promise<void>;
  /** The same for several files, none of which is written where one of them may not be or has no room. */
  writeTexts(
    files: readonly { readonly path: string; readonly content: string }[],
    options: { readonly force: boolean },
  ): Promise<void>;
  /** Refuses a path that `writeText` would refuse, before any long work; nothing to say of `-`. */
  checkTarget(path: string, options: { readonly force: boolean }): Promise<void>;
  /** Whether two paths name the same file. */
  isSameFile(one: string, other: string): boolean;
  /** The path of one file as seen from the folder of another, with forward slashes. */
  pathFrom(from: string, to: string): string;
  /** From now on: each call of what it gives waits until one of the files is changed, and is true then; false after Ctrl-C. */
  watchFiles(paths: readonly string[]): () => Promise<boolean>;
  /** Data, to standard output. */
  print(text: string): void;
  /** Messages that are the data, to standard output; broken between words as by `note`. */
  printLines(text: string): void;
  /** Everything else, to standard error; on a terminal lines that are too long for it are broken between words. */
  note(text: string): void;
  /** Columns that a report may take: those of a terminal, or what COLUMNS asks for; else a pipe has no end. */
  readonly width: number;
  /** Columns that the source lines of a file may take on standard error. */
  readonly noteWidth: number;
  /** Whether standard output takes colours. */
  readonly colour: boolean;
  /** Columns of the line that shows progress: 0 where standard error is no terminal. */
  readonly progressWidth: number;
  /** Milliseconds since some moment; only differences mean something. */
  now(): number;
  /** Lets signals get through; long work calls it now and then. */
  breathe(): Promise<void>;
  /** Whether the user has pressed Ctrl-C: long work ends with the best so far, status 130. */
  interrupted(): boolean;
  /** Threads beside this one that work out options and run simulations; without them all is done here, one after another. */
  readonly beside?: Pick<CompareWork, "atATime" | "solve"> & RunsBeside;
}

/** Does the work of a command and returns the status that the verdict gives. */
export type Perform = (context: Context) => Promise<ExitStatus>;

/**
 * Adds one command to the program: its name, arguments and options. Its action hands the work to `act`, which
 * starts it once the whole command line has been found right:
 *
 *     program.command("takt").argument("<line>", "line file").action((line, options) =>
 *       act((context) => showTakt(context, line, options)));
 */
export type Register = (program: Command, act: (perform: Perform) => void) => void;
