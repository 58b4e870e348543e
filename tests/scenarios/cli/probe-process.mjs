// The built program as a process of its own, with commands that a test can watch.
import { writeSync } from "node:fs";
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

function addNeverPause(program, act) {
  program.command("never-pause").action(() =>
    act(async (context) => {
      context.note("started\n");
      while (!context.interrupted()) await context.breathe();
      writeSync(2, "in a long step\n");
      for (;;);
    }),
  );
}

process.exitCode = await main(processIo(), async () => [addPrintMuch, addAwaitInterrupt, addNeverPause]);
