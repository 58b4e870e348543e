import { constants, createReadStream, createWriteStream, fstatSync, openSync } from "node:fs";
import { Socket } from "node:net";
import type { Readable, Writable } from "node:stream";
import { finished } from "node:stream/promises";
import { setTimeout } from "node:timers/promises";
import { isatty, ReadStream } from "node:tty";
import { InterruptedError } from "../commands/context.js";
import { systemCode } from "./system-reason.js";

// A named pipe is opened without waiting for its other end: a thread that waits there cannot be ended, not even by the end of the process.
const { O_NONBLOCK, O_RDONLY, O_WRONLY } = constants;

/** What a path names, to be read from its start: a file, a device, or a pipe, which is waited for. */
export function openToRead(path: string): Readable {
  const fd = openSync(path, O_RDONLY | O_NONBLOCK);
  if (fstatSync(fd).isFIFO()) return new Socket({ fd, readable: true, writable: false });
  return isatty(fd) ? new ReadStream(fd) : createReadStream(path, { fd, highWaterMark: 1 << 20 });
}

/** Milliseconds between two looks whether a pipe has a reader. */
const BETWEEN = 50;

/** Writes into what is no regular file. Throws an InterruptedError where nobody reads a pipe before the signal comes. */
export async function writeSpecialFile(
  path: string,
  content: Uint8Array,
  interrupt: AbortSignal,
): Promise<void> {
  let fd = openToWrite(path);
  while (fd === null) {
    await setTimeout(BETWEEN, undefined, { signal: interrupt }).catch(() => {});
    if (interrupt.aborted) throw new InterruptedError();
    fd = openToWrite(path);
  }
  const stream: Writable = fstatSync(fd).isFIFO()
    ? new Socket({ fd, readable: false, writable: true })
    : createWriteStream(path, { fd });
  stream.end(content);
  await finished(stream, { readable: false });
}

/** Null where it is a pipe that nobody reads yet. */
function openToWrite(path: string): number | null {
  try {
    return openSync(path, O_WRONLY | O_NONBLOCK);
  } catch (error) {
    if (systemCode(error) === "ENXIO") return null;
    throw error;
  }
}
