import { constants, realpathSync, statSync } from "node:fs";
import { access, lstat, realpath, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { UnfinishedError, UsageError } from "../commands/context.js";
import { quotedPath } from "./quoted-path.js";
import { readTextFile } from "./read-files.js";
import { writeSpecialFile } from "./special-files.js";
import { systemCode, systemReason } from "./system-reason.js";
import { NotWritten, writeWholeFiles } from "./whole-files.js";

/** Faults of the machine; every other one is about the path that was asked for. */
const OF_THE_MACHINE = new Set(["ENOSPC", "EDQUOT", "EFBIG", "EIO", "EMFILE", "ENFILE", "ENOMEM", "EPIPE"]);

/** What to do about a fault. */
const ADVICE: Readonly<Record<string, string>> = {
  ENOSPC: "make room, or give a place elsewhere",
  EDQUOT: "make room, or give a place elsewhere",
  EACCES: "give a place where you may write",
  EPERM: "give a place where you may write",
  EROFS: "give a place where you may write",
  ENAMETOOLONG: "give a shorter one",
};

export interface TextFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/**
 * Writes files whole or not at all, and none of them before there is room for all. A file that exists is replaced only when forced; what
 * is no regular file (a device, a named pipe) is written into. Throws a UsageError about a path and an UnfinishedError for a full disk.
 */
export async function writeTextFiles(
  folder: string,
  files: readonly TextFile[],
  force: boolean,
  interrupt: AbortSignal,
): Promise<void> {
  const known = [];
  for (const file of files) known.push({ ...file, kind: await checkTarget(folder, file.path, force) });
  const whole = known.filter(({ kind }) => kind !== "other");
  try {
    await writeWholeFiles(
      whole.map(({ path, content }) => ({ target: resolve(folder, path), content: Buffer.from(content) })),
    );
  } catch (error) {
    if (!(error instanceof NotWritten)) throw error;
    throw explain(whole[error.at]!.path, error.cause, keptWords(error.placed, whole));
  }
  for (const { path, content } of known.filter(({ kind }) => kind === "other")) {
    try {
      await writeSpecialFile(resolve(folder, path), Buffer.from(content), interrupt);
    } catch (error) {
      throw explain(path, error);
    }
  }
}

/** What stands in the places of the files after a fault. */
function keptWords(placed: number, files: readonly { readonly kind: string }[]): string {
  if (files.length === 1) return files[0]!.kind === "file" ? "; the file that stands there is kept" : "";
  return placed === 0
    ? `; none of the ${files.length} files is written`
    : `; ${placed} of the ${files.length} files are written`;
}

/** Ends of names of files that are never written: what has such a name would open as nothing. */
const FOREIGN = /\.(?:xls|xlsm|xlsb|ods|pdf|docx?|odt|pptx?|odp|png|jpe?g|gif|zip)$/iu;

/** Refuses a path that `writeTextFiles` would refuse; gives what is there now. */
export async function checkTarget(
  folder: string,
  path: string,
  force: boolean,
): Promise<"none" | "file" | "other"> {
  if (path === "")
    throw new UsageError("the name of a file is empty; a file is expected, or - for standard output");
  if (FOREIGN.test(path))
    throw new UsageError(
      `${quotedPath(path)} cannot be written: no file of that kind is made here; a table goes into .xlsx or .csv, a page into .html, a picture into .svg`,
    );
  const target = resolve(folder, path);
  const kind = await kindOf(target);
  // Without its slash a name of a folder would be one of a file.
  if (kind === "folder" || path.endsWith("/"))
    throw new UsageError(`${quotedPath(path)} is a folder; a file is expected`);
  if (kind === "dead link")
    throw new UsageError(
      `${quotedPath(path)} is a link to a file that does not exist; name that file, or take the link away`,
    );
  if (kind === "file" && !force) throw new UsageError(`${quotedPath(path)} exists; --force replaces it`);
  try {
    if (kind !== "none") await access(target, constants.W_OK);
    // A file is written beside the one that it replaces.
    if (kind !== "other") await access(dirname(await realpath(target).catch(() => target)), constants.W_OK);
  } catch (error) {
    throw explain(path, error);
  }
  return kind;
}

/** Whether two paths name the same file, through links as well; what is not there yet is where it would be written. */
export function isSameFile(folder: string, one: string, other: string): boolean {
  const [first, second] = [resolve(folder, one), resolve(folder, other)];
  return first === second || identityOf(first) === identityOf(second);
}

function identityOf(path: string): string {
  try {
    const found = statSync(path, { bigint: true, throwIfNoEntry: false });
    return found === undefined
      ? join(realpathSync(dirname(path)), basename(path))
      : `${found.dev}:${found.ino}`;
  } catch {
    return path;
  }
}

/** The text of a file that would be replaced; null where there is none, or none that could be replaced. */
export async function existingText(folder: string, path: string): Promise<string | null> {
  return (await kindOf(resolve(folder, path))) === "file" ? readTextFile(folder, path) : null;
}

async function kindOf(path: string): Promise<"none" | "file" | "folder" | "other" | "dead link"> {
  try {
    const found = await stat(path);
    if (found.isDirectory()) return "folder";
    return found.isFile() ? "file" : "other";
  } catch {
    // Writing would put a file in place of the link.
    return (await isLink(path)) ? "dead link" : "none";
  }
}

const isLink = (path: string): Promise<boolean> =>
  lstat(path).then(
    (found) => found.isSymbolicLink(),
    () => false,
  );

function explain(path: string, error: unknown, kept = ""): unknown {
  const code = systemCode(error);
  if (code === null) return error;
  const reason = code === "ENOENT" ? "its folder does not exist; make it first" : systemReason(error);
  const advice = ADVICE[code];
  const told = `${reason}${advice === undefined ? "" : `; ${advice}`}${kept}`;
  return OF_THE_MACHINE.has(code)
    ? new UnfinishedError(`${quotedPath(path)} could not be written: ${told}`)
    : new UsageError(`${quotedPath(path)} cannot be written: ${told}`);
}
