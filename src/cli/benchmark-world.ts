import { readFileSync } from "node:fs";
import { type BenchmarkWorld, UnreadableError } from "../benchmark/benchmark-command.js";

/** Files, streams and the clock of this process, for the benchmarks. */
export const THIS_PROCESS: BenchmarkWorld = {
  readText,
  tellResult: (text) => process.stdout.write(text),
  tellAside: (text) => process.stderr.write(text),
  now: () => performance.now(),
};

function readText(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch (error) {
    throw new UnreadableError((error as NodeJS.ErrnoException).code ?? String(error));
  }
}
