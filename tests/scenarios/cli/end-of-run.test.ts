import { Readable } from "node:stream";
import { describe, expect, test } from "vitest";
import { runProbe } from "./probe-command.js";

const args = ["balance", "line.yaml"];

describe("a fault of our own", () => {
  const fail = async () => {
    throw new TypeError("x is not\na function");
  };

  test("ends with status 3 and says how to report it, without a trace", async () => {
    const { status, stdout, stderr } = await runProbe({ args }, fail);
    expect({ status, stdout, stderr }).toEqual({
      status: 3,
      stdout: "",
      stderr:
        "linepoise failed: x is not\nThis is an error in linepoise. Please report it with the command and its files; LINEPOISE_DEBUG=1 shows where.\n",
    });
  });

  test("shows where it came from with LINEPOISE_DEBUG=1", async () => {
    const { stderr } = await runProbe({ args, env: { LINEPOISE_DEBUG: "1" } }, fail);
    expect(stderr).toMatch(/^linepoise failed: [\s\S]*\n {4}at fail .*end-of-run\.test\.ts/);
  });
});

describe("Ctrl-C", () => {
  test("lets a command end in order, with what it has so far", async () => {
    let press = () => {};
    const run = { args, onStart: (pressInterrupt: () => void) => (press = pressInterrupt) };
    const { status, stdout, stderr } = await runProbe(run, async (context) => {
      const before = context.interrupted();
      press();
      await context.breathe();
      context.print(`${before} ${context.interrupted()}\n`);
      return 130;
    });
    expect({ status, stdout, stderr }).toEqual({
      status: 130,
      stdout: "false true\n",
      stderr: "\nInterrupted: ending with the best so far. Ctrl-C again ends at once.\n",
    });
  });

  test("while files are watched, when there is nothing to end with, says that they are watched no longer", async () => {
    let press = () => {};
    const run = { args, onStart: (pressInterrupt: () => void) => (press = pressInterrupt) };
    const { stderr } = await runProbe(run, async (context) => {
      const isChanged = context.watchFiles(["line.yaml"])();
      press();
      return (await isChanged) ? 1 : 0;
    });
    expect(stderr).toBe("\nInterrupted: the files are no longer watched.\n");
  });

  test("while standard input is awaited ends with status 130", async () => {
    let press = () => {};
    const stdin = new Readable({ read: () => press() });
    const run = {
      args: ["balance", "-"],
      stdin,
      onStart: (pressInterrupt: () => void) => (press = pressInterrupt),
    };
    const { status, stdout } = await runProbe(run, async (context, file) => {
      await context.readText(file);
      return undefined;
    });
    expect([status, stdout]).toEqual([130, ""]);
  });
});
