import { stat } from "node:fs/promises";
import { setTimeout } from "node:timers/promises";

/** Milliseconds between two looks: editors that replace a file whole, and folders on other machines, tell nobody of a change. */
const BETWEEN = 200;

/**
 * Watches files from the call on: each call of what it gives waits until one of them is another than it was, and is true then, false once
 * `interrupt` is given. What changes between two calls is seen by the second.
 */
export function watchFiles(paths: readonly string[], interrupt: AbortSignal): () => Promise<boolean> {
  let known = Promise.all(paths.map(stampOf));
  return async () => {
    while (!interrupt.aborted) {
      await setTimeout(BETWEEN, undefined, { signal: interrupt }).catch(() => {});
      const [before, now] = await Promise.all([known, Promise.all(paths.map(stampOf))]);
      // A file that is gone for the moment is about to be replaced.
      if (!now.some((stamp, at) => stamp !== "" && stamp !== before[at])) continue;
      known = Promise.resolve(now);
      return !interrupt.aborted;
    }
    return false;
  };
}

async function stampOf(path: string): Promise<string> {
  try {
    const { mtimeMs, size, ino } = await stat(path);
    return `${mtimeMs} ${size} ${ino}`;
  } catch {
    return "";
  }
}
