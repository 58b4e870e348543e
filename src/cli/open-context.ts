import { dirname, relative, resolve, sep } from "node:path";
import { setImmediate } from "node:timers/promises";
import { type Context, UsageError } from "../commands/context.js";
import { decodeText } from "./decode-text.js";
import { findFiles } from "./find-files.js";
import type { Io, Terminal } from "./io.js";
import { optionThreads } from "./option-threads.js";
import type { Outlet } from "./outlet.js";
import { readFileBytes, readStandardInput, readTextFile } from "./read-files.js";
import { openRevisions } from "./read-revision.js";
import { watchFiles } from "./watch-files.js";
import { checkTarget, existingText, isSameFile, writeTextFiles } from "./write-files.js";

const DASH = "-";
/** Columns of a terminal that does not say how many it has, and of a source line that a message shows in a pipe. */
const USUAL_WIDTH = 100;
const [NARROWEST, WIDEST] = [40, 200];

/** Breaks the long lines of a text for a stream. */
export type Wrap = (stream: Terminal, text: string) => string;

/** Ctrl-C as a command sees it. */
export interface Interrupt {
  /** Aborted by the first one. */
  readonly signal: AbortSignal;
  /** While a command waits for a file to change, and has nothing to end with. */
  isWaiting: boolean;
}

/** What a command may see and do, on top of the streams and folder of this run. */
export function openContext(io: Io, out: Outlet, err: Outlet, interrupted: Interrupt, wrap: Wrap): Context {
  const { threads } = io;
  const { signal: interrupt } = interrupted;
  const taken = new Set<"input" | "output">();
  const takeDash = (stream: "input" | "output"): void => {
    if (taken.has(stream)) throw new UsageError(`- stands for standard ${stream} and can be given once`);
    taken.add(stream);
  };
  return {
    async readText(path) {
      if (path !== DASH) return readTextFile(io.folder, path, interrupt);
      takeDash("input");
      return decodeText(await readStandardInput(io.stdin, interrupt), "standard input");
    },
    async readBytes(path) {
      if (path !== DASH) return readFileBytes(io.folder, path, interrupt);
      takeDash("input");
      return readStandardInput(io.stdin, interrupt);
    },
    findFiles: async (pattern) => (pattern === DASH ? [DASH] : findFiles(io.folder, pattern)),
    readAtRevision: openRevisions(io),
    readExisting: async (path) => (path === DASH ? null : existingText(io.folder, path)),
    async writeText(path, content, { force }) {
      if (path !== DASH) return writeTextFiles(io.folder, [{ path, content }], force, interrupt);
      takeDash("output");
      if (typeof content === "string") out.write(content);
    },
    writeTexts: (files, { force }) => writeTextFiles(io.folder, files, force, interrupt),
    async checkTarget(path, { force }) {
      if (path !== DASH) await checkTarget(io.folder, path, force);
    },
    isSameFile: (one, other) => isSameFile(io.folder, one, other),
    pathFrom: (from, to) =>
      relative(dirname(resolve(io.folder, from)), resolve(io.folder, to))
        .split(sep)
        .join("/"),
    watchFiles(paths) {
      const resolved = paths.map((path) => resolve(io.folder, path));
      const isChanged = watchFiles(resolved, interrupt);
      return async () => {
        interrupted.isWaiting = true;
        return isChanged().finally(() => {
          interrupted.isWaiting = false;
        });
      };
    },
    print: (text) => out.write(text),
    printLines: (text) => out.write(wrap(io.stdout, text)),
    note: (text) => err.write(wrap(asAsked(io.stderr, io.env), text)),
    width: widthOf(io.stdout, io.env, Number.POSITIVE_INFINITY),
    // In a pipe a source line is shown at its usual width, whatever the terminal beside it has.
    noteWidth: widthOf(io.stderr, io.stderr.isTTY === true ? io.env : {}, USUAL_WIDTH),
    colour: decideColour(io.env, io.stdout.isTTY === true),
    // The last column stays free: some terminals go on to the next line behind it.
    progressWidth: io.stderr.isTTY === true ? (io.stderr.columns || NARROWEST) - 1 : 0,
    now: io.now,
    breathe: () => setImmediate(),
    interrupted: () => interrupt.aborted,
    ...(threads !== undefined && threads.count > 1
      ? { beside: optionThreads(threads.count, threads.start, interrupt) }
      : {}),
  };
}

/** A terminal of as many columns as COLUMNS asks for; a pipe as it is. */
export const asAsked = ({ isTTY = false, columns }: Terminal, env: Io["env"]): Terminal =>
  isTTY && (env.COLUMNS ?? "") !== ""
    ? { isTTY, columns: widthOf({ isTTY, columns }, env, 0) }
    : { isTTY, columns };

/** What COLUMNS asks for, or else the columns of a terminal, within reason; `ofPipe` where there is neither. */
function widthOf({ isTTY, columns }: Terminal, { COLUMNS: asked = "" }: Io["env"], ofPipe: number): number {
  const ofTerminal = isTTY === true ? columns || USUAL_WIDTH : null;
  const wanted = /^[1-9]\d{0,8}$/u.test(asked) ? Number(asked) : ofTerminal;
  return wanted === null ? ofPipe : Math.min(Math.max(wanted, NARROWEST), WIDEST);
}

/**
 * Whether to write colours; decided here and nowhere else. NO_COLOR (not empty) wins over everything. Then FORCE_COLOR:
 * 0 or false for none, anything else but empty for colours even in a pipe. Otherwise a terminal that is not dumb.
 */
function decideColour(env: Readonly<Record<string, string | undefined>>, isTerminal: boolean): boolean {
  const { NO_COLOR: none = "", FORCE_COLOR: force = "", TERM: terminal } = env;
  if (none !== "") return false;
  if (force !== "") return force !== "0" && force !== "false";
  return isTerminal && terminal !== "dumb";
}
