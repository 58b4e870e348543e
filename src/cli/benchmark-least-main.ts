import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { UnreadableError } from "../benchmark/benchmark-command.js";
import { benchmarkLeast } from "../benchmark/least-benchmark-command.js";

const shared = (name: string) => fileURLToPath(new URL(`../../shared/${name}`, import.meta.url));

process.exitCode = await benchmarkLeast(
  process.argv.slice(2),
  { cases: shared("classic-least-cycles.csv"), lines: shared("classic-lines.json") },
  {
    readText,
    tellResult: (text) => process.stdout.write(text),
    tellAside: (text) => process.stderr.write(text),
    now: () => performance.now(),
  },
);

function readText(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch (error) {
    throw new UnreadableError((error as NodeJS.ErrnoException).code ?? String(error));
  }
}
