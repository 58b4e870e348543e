import { readdir } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";
import { addAbortSignal, type Readable } from "node:stream";
import { InterruptedError, UsageError } from "../commands/context.js";
import { nearestWords } from "../findings/nearest.js";
import { decodeText } from "./decode-text.js";
import { quotedPath } from "./quoted-path.js";
import { openToRead } from "./special-files.js";
import { systemCode, systemReason } from "./system-reason.js";

/** The text of a file; throws a UsageError where it is none. */
export async function readTextFile(folder: string, path: string, interrupt?: AbortSignal): Promise<string> {
  return decodeText(await readFileBytes(folder, path, interrupt), quotedPath(path));
}

/** The bytes of a file; throws a UsageError that says what is wrong with the path and what is near. */
export async function readFileBytes(
  folder: string,
  path: string,
  interrupt = new AbortController().signal,
): Promise<Uint8Array> {
  if (path === "")
    throw new UsageError("the name of a file is empty; a file is expected, or - for standard input");
  try {
    return await readWhole(openToRead(resolve(folder, path)), interrupt, quotedPath(path));
  } catch (error) {
    if (error instanceof InterruptedError || error instanceof UsageError) throw error;
    throw new UsageError(await explain(folder, path, error));
  }
}

async function explain(folder: string, path: string, error: unknown): Promise<string> {
  const code = systemCode(error);
  if (code === "EISDIR") return `${quotedPath(path)} is a folder; a file is expected`;
  if (code === "ENOENT")
    return `there is no file ${quotedPath(path)}${await nearestFiles(resolve(folder, path))}`;
  if (code !== null) return `${quotedPath(path)} cannot be read: ${systemReason(error)}`;
  throw error;
}

/** Names like the missing one in its folder, or word that the folder is missing itself. */
async function nearestFiles(path: string): Promise<string> {
  try {
    return nearestWords(basename(path), (await readdir(dirname(path))).sort());
  } catch {
    return ", nor its folder";
  }
}

/** The whole standard input; throws an InterruptedError when the signal comes first. */
export async function readStandardInput(stdin: Readable, interrupt: AbortSignal): Promise<Uint8Array> {
  try {
    return await readWhole(stdin, interrupt, "standard input");
  } catch (error) {
    if (error instanceof InterruptedError || error instanceof UsageError) throw error;
    throw new UsageError(`standard input cannot be read: ${systemReason(error)}`);
  }
}

/** What a file may hold at the most: a device or a file that grows has no end. */
const MOST_MEGABYTES = 50;

async function readWhole(stream: Readable, interrupt: AbortSignal, name: string): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  try {
    for await (const chunk of addAbortSignal(interrupt, stream)) {
      chunks.push(Buffer.from(chunk));
      bytes += chunk.length;
      if (bytes > MOST_MEGABYTES * 1e6)
        throw new UsageError(
          `${name} holds more than ${MOST_MEGABYTES} MB; a line, a plan or a table is expected`,
        );
    }
  } catch (error) {
    if (interrupt.aborted) throw new InterruptedError();
    throw error;
  }
  return Buffer.concat(chunks);
}
