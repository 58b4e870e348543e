import { spawn } from "node:child_process";
import { once } from "node:events";
import { copyFile, mkdir, mkdtemp, readFile, realpath, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { text } from "node:stream/consumers";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import writeWorkbook from "write-excel-file/node";
import { runInShell } from "../../tools/run-linepoise.js";

const probe = fileURLToPath(new URL("probe-process.mjs", import.meta.url));
const PROBE = `${process.execPath} ${probe}`;

describe("what is loaded when it is asked for", () => {
  test("a workbook is read by the bundled program", async () => {
    const folder = await mkdtemp(join(tmpdir(), "workbook-"));
    try {
      const file = join(folder, "readings.xlsx");
      await writeWorkbook([
        ["element", 1, 2],
        ["fit", 12, 14],
      ]).toFile(file);
      const { status, stdout, stderr } = await runInShell("$LINEPOISE study $FILE --unit s --json", {
        FILE: file,
      });
      expect([status, stderr]).toEqual([0, ""]);
      expect(JSON.parse(stdout)).toMatchObject({ elements: [{ element: "fit", observedSeconds: 13 }] });
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});

describe("standard output of a process", () => {
  test("whose reader goes away ends quietly with the status of the verdict", async () => {
    expect(await runInShell("$PROBE print-much | head -1", { PROBE })).toEqual({
      status: 0,
      stdout: "line 1\n",
      stderr: "",
    });
  });

  test("arrives whole in a pipe, whatever its size", async () => {
    // 200,000 lines of "line " and a line feed, with 9 x 1 + 90 x 2 + ... + 100,001 x 6 digits
    const bytes = 200_000 * 6 + 9 + 180 + 2700 + 36_000 + 450_000 + 600_006;
    const { status, stdout, stderr } = await runInShell("$PROBE print-much | wc -c", { PROBE });
    expect([status, Number(stdout), stderr]).toEqual([0, bytes, ""]);
  });

  test.each([
    "$PROBE print-much > /dev/full",
    "$LINEPOISE --help > /dev/full",
    "$LINEPOISE --version > /dev/full",
  ])("on a full disk ends with status 3 and one line: %s", async (commandLine) => {
    expect(await runInShell(commandLine, { PROBE })).toEqual({
      status: 3,
      stdout: "",
      stderr: "error: standard output could not be written: no space left on device\n",
    });
  });

  test("on a full disk is told by the status alone where stderr is full too", async () => {
    expect(await runInShell("$LINEPOISE --version > /dev/full 2>&1")).toMatchObject({
      status: 3,
      stdout: "",
      stderr: "",
    });
  });

  test("stays empty on wrong usage, which ends with status 2", async () => {
    const { status, stdout, stderr } = await runInShell("$LINEPOISE --tact 60");
    expect([status, stdout, stderr]).toEqual([
      2,
      "",
      expect.stringMatching(/^error: unknown option '--tact'\n/),
    ]);
  });
});

describe("a process", () => {
  test("with a fault of our own names the line of the source with LINEPOISE_DEBUG=1", async () => {
    const source = await readFile(new URL("../../../src/commands/new.ts", import.meta.url), "utf8");
    const line = source.split("\n").findIndex((text) => text.includes("JSON.stringify(")) + 1;
    const planted = encodeURIComponent('JSON.stringify = () => { throw new Error("planted"); };');
    const env = { LINEPOISE_DEBUG: "1", NODE_OPTIONS: `--import data:text/javascript,${planted}` };
    const { status, stderr } = await runInShell("$LINEPOISE new --json", env);
    expect(status).toBe(3);
    expect(stderr).toMatch(/^linepoise failed: planted\n/);
    expect(stderr).toContain(`src/commands/new.ts:${line}:`);
  });

  test.each(["SIGINT", "SIGTERM"] as const)(
    "that is interrupted by %s prints the best so far and ends with status 130",
    async (signal) => {
      const child = spawn(process.execPath, [probe, "await-interrupt"], {
        stdio: ["ignore", "pipe", "pipe"],
      });
      const ended = once(child, "exit");
      await once(child.stderr, "data");
      child.kill(signal);
      expect(await text(child.stdout)).toBe("the best so far\n");
      expect(await ended).toEqual([130, null]);
    },
  );

  // A shell gives status 130 for it.
  test("that is interrupted twice ends at once, in the midst of a step that lets nobody through", async () => {
    const child = spawn(process.execPath, [probe, "never-pause"], { stdio: ["ignore", "ignore", "pipe"] });
    const ended = once(child, "exit");
    let told = "";
    for await (const chunk of child.stderr) {
      const before = told;
      told += chunk;
      for (const words of ["started", "in a long step"])
        if (told.includes(words) && !before.includes(words)) child.kill("SIGINT");
    }
    expect(await ended).toEqual([null, "SIGINT"]);
  });

  test("that was never built says what to run, with status 3", async () => {
    const folder = await realpath(await mkdtemp(join(tmpdir(), "linepoise-")));
    try {
      await mkdir(join(folder, "bin"));
      await writeFile(join(folder, "package.json"), '{"type": "module"}');
      await copyFile(
        fileURLToPath(new URL("../../../bin/linepoise.js", import.meta.url)),
        join(folder, "bin/linepoise.js"),
      );
      expect(await runInShell(`${process.execPath} ${folder}/bin/linepoise.js takt line.yaml`)).toEqual({
        status: 3,
        stdout: "",
        stderr: `linepoise: not built; run \`npm ci\` (or \`npm run build\`) in ${folder}/\n`,
      });
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});
