import type { Context, Register } from "../../../src/commands/context.js";
import { EXIT_STATUS, type ExitStatus } from "../../../src/commands/exit-status.js";
import { positiveSeconds, positiveWholeNumber } from "../../../src/commands/option-values.js";
import { type Ran, type Run, runLinepoise } from "../../tools/run-linepoise.js";

type Work = (
  context: Context,
  file: string,
  options: Record<string, unknown>,
) => Promise<ExitStatus | undefined>;

/** A command with one file and every kind of option, which does what a test gives it to do. */
function probeCommand(work: Work): Register {
  return (program, act) => {
    program
      .command("balance")
      .description("what a test wants of a command")
      .argument("<line>", "line file")
      .option("--cycle <time>", "line cycle")
      .option("--stations <n>", "fixed number of stations", positiveWholeNumber)
      .option("--seconds <s>", "time to search", positiveSeconds)
      .option("--out <file>", "where to write")
      .option("--force", "replace a file")
      .option("--json", "for machines")
      .action((file: string, options: Record<string, unknown>) =>
        act(async (context) => (await work(context, file, options)) ?? EXIT_STATUS.fine),
      );
  };
}

/** Runs the program with that command alone. */
export function runProbe(run: Run, work: Work = async () => undefined): Promise<Ran> {
  return runLinepoise({ ...run, commands: [probeCommand(work)] });
}
