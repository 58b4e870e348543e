// The built program as a process of its own, with two commands that a test can watch.
import { main, processIo } from "../../../dist/program/main.js";

const LINES = 200_000;

function addPrintMuch(program, act) {
  program.command("print-much").action(() =>
    act(async (context) => {
      for (let line = 1; line <= LINES; line += 1) context.print(`line ${line}\n`);
      return 0;
    }),
  );
}

function addAwaitInterrupt(program, act) {
  program.command("await-interrupt").action(() =>
    act(async (context) => {
      context.note("started\n");
      while (!context.interrupted()) await context.breathe();
      context.print("the best so far\n");
      return 130;
    }),
  );
}

process.exitCode = await main(processIo(), async () => [addPrintMuch, addAwaitInterrupt]);
