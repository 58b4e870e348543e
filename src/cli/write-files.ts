import { constants, realpathSync, statSync } from "node:fs";
import { access, lstat, stat, writeFile } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import writeFileAtomic from "write-file-atomic";
import { UnfinishedError, UsageError } from "../commands/context.js";
import { quotedPath } from "./quoted-path.js";
import { readTextFile } from "./read-files.js";
import { systemCode, systemReason } from "./system-reason.js";

/** Faults of the machine; every other one is about the path that was asked for. */
const OUT_OF_ROOM = new Set(["ENOSPC", "EDQUOT", "EIO", "EMFILE", "ENFILE", "ENOMEM"]);

/**
 * Writes a file whole or not at all. A file that exists is replaced only when forced; what is no regular file (a
 * device, a named pipe) is written into. Throws a UsageError about the path and an UnfinishedError for a full disk.
 */
export async function writeTextFile(
  folder: string,
  path: string,
  content: string | Uint8Array,
  force: boolean,
): Promise<void> {
  const kind = await checkTarget(folder, path, force);
  const target = resolve(folder, path);
  try {
    await (kind === "other" ? writeFile(target, content) : writeFileAtomic(target, Buffer.from(content)));
  } catch (error) {
    throw explain(path, error);
  }
}

/** Refuses a path that `writeTextFile` would refuse; gives what is there now. */
export async function checkTarget(
  folder: string,
  path: string,
  force: boolean,
): Promise<"none" | "file" | "other"> {
  if (path === "")
    throw new UsageError("the name of a file is empty; a file is expected, or - for standard output");
  const target = resolve(folder, path);
  const kind = await kindOf(target);
  if (kind === "folder") throw new UsageError(`${quotedPath(path)} is a folder; a file is expected`);
  if (kind === "dead link")
    throw new UsageError(
      `${quotedPath(path)} is a link to a file that does not exist; name that file, or take the link away`,
    );
  if (kind === "file" && !force) throw new UsageError(`${quotedPath(path)} exists; --force replaces it`);
  try {
    await access(kind === "none" ? dirname(target) : target, constants.W_OK);
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

function explain(path: string, error: unknown): unknown {
  const code = systemCode(error);
  if (code === null) return error;
  if (OUT_OF_ROOM.has(code))
    return new UnfinishedError(`${quotedPath(path)} could not be written: ${systemReason(error)}`);
  const reason = code === "ENOENT" ? "its folder does not exist" : systemReason(error);
  return new UsageError(`${quotedPath(path)} cannot be written: ${reason}`);
}
