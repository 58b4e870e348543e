import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Context } from "../../../src/commands/context.js";
import { runProbe } from "./probe-command.js";

const echo = async (context: Context, file: string) => {
  context.print(await context.readText(file));
  return undefined;
};
const args = ["balance", "line.yaml"];

describe("a text file", () => {
  test("is read as UTF-8 without its byte order mark", async () => {
    const ran = await runProbe({ args, files: { "line.yaml": "\ufeffline: Lastenrad größer\n" } }, echo);
    expect(ran.stdout).toBe("line: Lastenrad größer\n");
  });

  test("is read as UTF-16 with its mark or without, and with lines that end in CR alone", async () => {
    const text = "line: Lastenrad größer\ntasks:\r\n  a: 3\n";
    const wide = Buffer.from(`\ufeff${text}`, "utf16le");
    const files = [
      wide,
      wide.subarray(2),
      Buffer.from(wide).swap16(),
      Buffer.from(wide).swap16().subarray(2),
    ];
    for (const file of [...files, Buffer.from("line: Lastenrad größer\rtasks:\r\n  a: 3\r")]) {
      const ran = await runProbe({ args, files: { "line.yaml": file } }, echo);
      expect([ran.status, ran.stdout, ran.stderr]).toEqual([0, text, ""]);
    }
  });

  test("in another encoding is refused with its likely name and the first byte that is no text", async () => {
    const bytes = Buffer.from("line: x\nname: gr\u00f6\u00dfer\n", "latin1");
    const ran = await runProbe({ args, files: { "line.yaml": bytes } }, echo);
    expect([ran.status, ran.stdout, ran.stderr]).toEqual([
      2,
      "",
      'error: "line.yaml" is not UTF-8 text at byte 16 (0xF6, line 2); the file is likely in Windows-1252; save it as UTF-8\n',
    ]);
  });
});

describe("standard input", () => {
  test("is read for -", async () => {
    const ran = await runProbe({ args: ["balance", "-"], stdin: "\ufeffline: x\n" }, echo);
    expect([ran.status, ran.stdout]).toEqual([0, "line: x\n"]);
  });

  test("is refused where it is no text", async () => {
    const ran = await runProbe({ args: ["balance", "-"], stdin: Buffer.from([0x61, 0xff]) }, echo);
    expect([ran.status, ran.stderr]).toEqual([
      2,
      "error: standard input is not UTF-8 text at byte 1 (0xFF, line 1); the file is likely in Windows-1252; save it as UTF-8\n",
    ]);
  });

  test("cannot be read twice", async () => {
    const ran = await runProbe({ args: ["balance", "-"], stdin: "x" }, async (context, file) => {
      await context.readText(file);
      await context.readText(file);
      return undefined;
    });
    expect([ran.status, ran.stderr]).toEqual([
      2,
      "error: - stands for standard input and can be given once\n",
    ]);
  });
});

describe("a file to write", () => {
  const write = async (context: Context, file: string, options: Record<string, unknown>) => {
    await context.writeText(file, "new\n", { force: options.force === true });
    return undefined;
  };

  test("is made", async () => {
    const ran = await runProbe({ args }, write);
    expect([ran.status, ran.stdout, ran.stderr, ran.files]).toEqual([0, "", "", { "line.yaml": "new\n" }]);
  });

  test("that exists is kept", async () => {
    const ran = await runProbe({ args, files: { "line.yaml": "old\n" } }, write);
    expect([ran.status, ran.stderr, ran.files]).toEqual([
      2,
      'error: "line.yaml" exists; --force replaces it\n',
      { "line.yaml": "old\n" },
    ]);
  });

  test("that exists is replaced with --force, leaving nothing beside it", async () => {
    const ran = await runProbe({ args: [...args, "--force"], files: { "line.yaml": "old\n" } }, write);
    expect([ran.status, ran.files]).toEqual([0, { "line.yaml": "new\n" }]);
  });

  test("of the name - is standard output, once", async () => {
    const ran = await runProbe({ args: ["balance", "-"] }, write);
    expect([ran.status, ran.stdout, ran.files]).toEqual([0, "new\n", {}]);
    const twice = await runProbe({ args: ["balance", "-"] }, async (context, file, options) => {
      await write(context, file, options);
      return write(context, file, options);
    });
    expect([twice.status, twice.stderr]).toEqual([
      2,
      "error: - stands for standard output and can be given once\n",
    ]);
  });

  test.each([
    ["plans", '"plans" is a folder; a file is expected'],
    ["new-plans/", '"new-plans/" is a folder; a file is expected'],
    ["nowhere/plan.yaml", '"nowhere/plan.yaml" cannot be written: its folder does not exist; make it first'],
    ["line.yaml/plan.yaml", '"line.yaml/plan.yaml" cannot be written: not a directory'],
    ["", "the name of a file is empty; a file is expected, or - for standard output"],
  ])("at %j is wrong usage", async (path, why) => {
    const files = { "line.yaml": "", "plans/a.yaml": "" };
    const ran = await runProbe({ args: ["balance", path], files }, write);
    expect([ran.status, ran.stdout, ran.stderr, Object.keys(ran.files)]).toEqual([
      2,
      "",
      `error: ${why}\n`,
      ["line.yaml", "plans/a.yaml"],
    ]);
  });

  test("on a full device ends with status 3 and one line", async () => {
    const ran = await runProbe({ args: ["balance", "/dev/full"] }, write);
    expect([ran.status, ran.stderr]).toEqual([
      3,
      'error: "/dev/full" could not be written: no space left on device; make room, or give a place elsewhere\n',
    ]);
  });

  test("shows what it would replace, and nothing where there is no file", async () => {
    const seen: unknown[] = [];
    await runProbe({ args, files: { "line.yaml": "old\n", "plans/a.yaml": "" } }, async (context) => {
      for (const path of ["line.yaml", "other.yaml", "plans", "-"])
        seen.push(await context.readExisting(path));
      return undefined;
    });
    expect(seen).toEqual(["old\n", null, null, null]);
  });
});

test("a file names another one by the path from its own folder", async () => {
  const names: string[] = [];
  await runProbe({ args }, async (context) => {
    for (const file of ["plan.yaml", "plans/a/plan.yaml", "-"])
      names.push(context.pathFrom(file, "./lines/line.yaml"));
    return undefined;
  });
  expect(names).toEqual(["lines/line.yaml", "../../lines/line.yaml", "lines/line.yaml"]);
});

describe("a named pipe", () => {
  /** The command with a pipe in place of its file, and what is done meanwhile with the pipe. */
  const withPipe = async (
    words: readonly string[],
    meanwhile: (pipe: string, pressInterrupt: () => void) => Promise<unknown>,
    work: typeof echo = echo,
  ) => {
    const folder = await mkdtemp(join(tmpdir(), "pipe-"));
    const pipe = join(folder, "pipe");
    execFileSync("bash", ["-c", `mkfifo "${pipe}"`]);
    try {
      let press = () => {};
      const run = { args: ["balance", pipe, ...words], onStart: (given: () => void) => (press = given) };
      const [ran, met] = await Promise.all([runProbe(run, work), meanwhile(pipe, () => press())]);
      return [ran.status, ran.stdout, met];
    } finally {
      await rm(folder, { recursive: true });
    }
  };
  const write = async (context: Context, file: string) => {
    await context.writeText(file, "new\n", { force: false });
    return undefined;
  };

  test("is read once somebody writes into it, and written once somebody reads it", async () => {
    const text = "line: x\n".repeat(40_000);
    expect(await withPipe([], (pipe) => writeFile(pipe, text))).toEqual([0, text, undefined]);
    expect(await withPipe([], (pipe) => readFile(pipe, "utf8"), write)).toEqual([0, "", "new\n"]);
  });

  test.each([
    ["read", echo],
    ["written", write],
  ] as const)("that nobody else opens is %s until Ctrl-C", async (_, work) => {
    const press = async (_: string, pressInterrupt: () => void) => setTimeout(pressInterrupt, 20);
    expect((await withPipe([], press, work)).slice(0, 2)).toEqual([130, ""]);
  });
});

test("a file without an end is refused", async () => {
  const { status, stderr } = await runProbe({ args: ["balance", "/dev/zero"] }, echo);
  expect([status, stderr]).toEqual([
    2,
    'error: "/dev/zero" holds more than 50 MB; a line, a plan or a table is expected\n',
  ]);
});
