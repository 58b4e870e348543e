import { readFileSync } from "node:fs";
import { benchmark, UnreadableError } from "../benchmark/benchmark-command.js";

process.exitCode = await benchmark(process.argv.slice(2), {
  readText,
  tellResult: (text) => process.stdout.write(text),
  tellAside: (text) => process.stderr.write(text),
  now: () => performance.now(),
});

function readText(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch (error) {
    throw new UnreadableError((error as NodeJS.ErrnoException).code ?? String(error));
  }
}
