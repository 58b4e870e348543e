import { availableParallelism } from "node:os";
import type { Readable, Writable } from "node:stream";
import { type StartThread, startThread } from "./option-threads.js";

/** A stream for output and what is known of the terminal behind it. */
export type OutputStream = Writable & Terminal;

export interface Terminal {
  readonly isTTY?: boolean | undefined;
  readonly columns?: number | undefined;
}

/** Everything the program takes from outside: the process of a user, or streams of a test. */
export interface Io {
  /** The words after the program's name. */
  readonly args: readonly string[];
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Where relative paths start. */
  readonly folder: string;
  readonly stdin: Readable;
  readonly stdout: OutputStream;
  readonly stderr: OutputStream;
  /** Calls the listener at the first Ctrl-C, unless the returned function is called before; the next one ends the process at once. */
  onInterrupt(listener: () => void): () => void;
  /** Milliseconds since some moment. */
  now(): number;
  /** How many threads may work at a time, with how others are started; none where all work is done on this one. */
  readonly threads?: { readonly count: number; readonly start: StartThread };
}

/** More threads would mostly wait for memory. */
const MOST_THREADS = 4;

/** Ctrl-C, and what ends a program that runs for too long. */
const ENDINGS = ["SIGINT", "SIGTERM"] as const;

/** A file that grows beyond what the user is allowed would end the process; where it is heard, writing fails as on a full disk. */
const tellAsFull = () => {};

/** The input and output of this very process. */
export function processIo(): Io {
  return {
    args: process.argv.slice(2),
    env: process.env,
    folder: process.cwd(),
    stdin: process.stdin,
    stdout: process.stdout,
    stderr: process.stderr,
    onInterrupt(listener) {
      // A signal that nobody hears ends the process even in the midst of a long step, when no listener would get its turn.
      const hearOnce = () => {
        for (const signal of ENDINGS) process.off(signal, hearOnce);
        listener();
      };
      for (const signal of ENDINGS) process.on(signal, hearOnce);
      process.on("SIGXFSZ", tellAsFull);
      return () => {
        for (const signal of ENDINGS) process.off(signal, hearOnce);
        process.off("SIGXFSZ", tellAsFull);
      };
    },
    now: () => performance.now(),
    threads: { count: Math.min(availableParallelism(), MOST_THREADS), start: startThread },
  };
}
