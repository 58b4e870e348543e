import { availableParallelism, cpus, loadavg } from "node:os";
import { parseArgs } from "node:util";

/** Words on the command line that a benchmark cannot use; the message says which and what was expected. */
export class UsageError extends Error {}

/**
 * Runs a benchmark with its options, as node:util's parseArgs describes them, and sets the exit status: 0, 1 where the
 * benchmark gives false because an answer is wrong, 2 after one line that says which word cannot be used.
 */
export async function runWithOptions(usage, options, benchmark) {
  try {
    const { values } = readWords(options);
    tellMachine();
    process.exitCode = (await benchmark(values)) ? 0 : 1;
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    process.stderr.write(`error: ${error.message}; usage: ${usage}\n`);
    process.exitCode = 2;
  }
}

/** What the measured times depend on besides the program. */
function tellMachine() {
  const load = loadavg().map((each) => each.toFixed(1));
  const processors = `${availableParallelism()} x ${cpus()[0]?.model ?? "unknown"}`;
  tellProgress(`Node ${process.version}, ${processors}, load ${load.join(" ")} in 1, 5, 15 minutes`);
}

function readWords(options) {
  try {
    return parseArgs({ options, strict: true, allowPositionals: false });
  } catch (error) {
    if (!error.code?.startsWith("ERR_PARSE_ARGS")) throw error;
    throw new UsageError(error.message.split(". ")[0]);
  }
}

export function readSeconds(text) {
  const seconds = Number(text);
  if (/^\d+(\.\d+)?$/.test(text) && seconds > 0) return seconds;
  throw new UsageError(`--seconds ${text}: expected a number above 0, such as 3 or 0.5`);
}

export function readWhole(name, text) {
  const number = Number(text);
  if (/^\d+$/.test(text) && number > 0 && Number.isSafeInteger(number)) return number;
  throw new UsageError(`--${name} ${text}: expected a whole number from 1`);
}

export function tellProgress(text) {
  process.stderr.write(`${text}\n`);
}
