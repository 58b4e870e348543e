import { constants } from "node:fs";
import { type FileHandle, open, readdir, realpath, rename, stat, unlink } from "node:fs/promises";
import { dirname, join } from "node:path";

/** A file to write, by its absolute path. */
export interface WholeFile {
  readonly target: string;
  readonly content: Uint8Array;
}

/** Where one of several files could not be written, and how many were in their places by then. */
export class NotWritten extends Error {
  constructor(
    readonly at: number,
    readonly placed: number,
    override readonly cause: unknown,
  ) {
    super("a file could not be written");
  }
}

/**
 * Writes files whole: each is on the disk under another name in its folder before any of them takes its place, so that a
 * full disk or a kill leaves the old file or the new one, never a part. Modes, owners and links stay. What an earlier run
 * that was killed has left in the same folders is taken away. Throws a NotWritten.
 */
export async function writeWholeFiles(files: readonly WholeFile[]): Promise<void> {
  const staged: Staged[] = [];
  let placed = 0;
  try {
    const folders = new Set<string>();
    for (const { target, content } of files) {
      const place = await realpath(target).catch(() => target);
      const folder = dirname(place);
      if (!folders.has(folder)) await clearLeftovers(folder);
      folders.add(folder);
      staged.push(await stage(folder, place, content));
    }
    for (const { part, place } of staged) {
      await rename(part, place);
      underWay.delete(part);
      placed += 1;
    }
    for (const folder of folders) await keepNames(folder);
  } catch (error) {
    throw new NotWritten(placed > 0 ? placed : staged.length, placed, error);
  } finally {
    for (const { part } of staged.slice(placed)) await drop(part);
  }
}

interface Staged {
  readonly part: string;
  readonly place: string;
}

/** Names that this process writes under at the moment. */
const underWay = new Set<string>();
let count = 0;

/** The content under another name beside its place, with the mode and owner of what is there. */
async function stage(folder: string, place: string, content: Uint8Array): Promise<Staged> {
  const part = join(folder, `.linepoise-${process.pid}-${count++}.part`);
  underWay.add(part);
  try {
    const before = await stat(place).catch(() => null);
    const file = await open(part, "wx", before?.mode);
    try {
      await file.writeFile(content);
      if (before !== null) await keepRights(file, before);
      await file.sync();
    } finally {
      await file.close();
    }
  } catch (error) {
    await drop(part);
    throw error;
  }
  return { part, place };
}

/** Only root may give a file away; what anybody else writes is their own. */
async function keepRights(
  file: FileHandle,
  { mode, uid, gid }: { mode: number; uid: number; gid: number },
): Promise<void> {
  await file.chown(uid, gid).catch(() => {});
  await file.chmod(mode).catch(() => {});
}

async function drop(part: string): Promise<void> {
  await unlink(part).catch(() => {});
  underWay.delete(part);
}

/** A file that is written under another name says who writes it. */
const PART = /^\.linepoise-(\d+)-\d+\.part$/u;

/** Takes away what processes that are no more have left in a folder. */
async function clearLeftovers(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    const writer = PART.exec(name)?.[1];
    const part = join(folder, name);
    if (writer !== undefined && !underWay.has(part) && !isElsewhere(Number(writer)))
      await unlink(part).catch(() => {});
  }
}

/** Whether another process of that number runs. */
function isElsewhere(pid: number): boolean {
  if (pid === process.pid) return false;
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/** A name is on the disk once its folder is; systems that open no folders see to that themselves. */
async function keepNames(folder: string): Promise<void> {
  const opened = await open(folder, constants.O_RDONLY).catch(() => null);
  await opened?.sync().catch(() => {});
  await opened?.close();
}
