import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { runProbe } from "./probe-command.js";

/** Wrong usage: status 2, nothing on stdout, nothing done; returns stderr. */
async function refusal(args: readonly string[], files: Record<string, string> = {}): Promise<string> {
  let done = false;
  const ran = await runProbe({ args, files: { "line.yaml": "", ...files } }, async (context, file) => {
    await context.readText(file);
    done = true;
    return undefined;
  });
  expect([ran.status, ran.stdout, done]).toEqual([2, "", false]);
  return ran.stderr;
}

describe("wrong usage", () => {
  test.each([
    [["balance", "line.yaml", "--cyle", "60"], "error: unknown option '--cyle'\n(Did you mean --cycle?)\n"],
    [
      ["balance", "line.yaml", "--tact"],
      "error: unknown option '--tact'\nlinepoise help and the name of the command show its options.\n",
    ],
    [["balanse", "line.yaml"], "error: unknown command 'balanse'\n(Did you mean balance?)\n"],
    [["balanse", "--help"], "error: unknown command 'balanse'\n(Did you mean balance?)\n"],
    [["convert", "--help"], "error: unknown command 'convert'\nlinepoise --help lists the commands.\n"],
    [["sweep"], "error: unknown command 'sweep'\nlinepoise --help lists the commands.\n"],
    [
      ["--tact", "60"],
      "error: unknown option '--tact'\nlinepoise help and the name of the command show its options.\n",
    ],
    [
      ["balance"],
      "error: missing required argument 'line'\nlinepoise help and the name of the command show what it takes.\n",
    ],
    [
      ["balance", "line.yaml", "other.yaml"],
      "error: too many arguments for 'balance'. Expected 1 argument but got 2.\nPut a value that has spaces in quotes.\n",
    ],
    [["balance", "line.yaml", "--cycle"], "error: option '--cycle <time>' argument missing\n"],
    [
      ["balance", "line.yaml", "--cycle", "6", "--cycle", "5"],
      "error: option '--cycle <time>' is given twice\n",
    ],
    [["balance", "line.yaml", "--json", "--json"], "error: option '--json' is given twice\n"],
    [
      ["balance", "line.yaml", "--stations", "7", "--stations", "12"],
      "error: option '--stations <n>' is given twice\n",
    ],
    [
      ["balance", "line.yaml", "--out", "--force"],
      "error: option '--out <file>' needs its value before --force (for a value of that name, write --out=--force)\n",
    ],
    [
      ["balance", "line.yaml", "--\u001b[2J"],
      "error: unknown option '--␛[2J'\nlinepoise help and the name of the command show its options.\n",
    ],
  ])("%j ends with status 2 and says what is near, on stderr alone", async (args, expected) => {
    expect(await refusal(args)).toBe(expected);
  });

  test("without a command shows the help on stderr", async () => {
    expect(await refusal([])).toContain("Usage: linepoise [options] [command]\n");
  });

  test.each([
    ["lien.yaml", 'error: there is no file "lien.yaml"; nearest: line.yaml\n'],
    ["plans/line.yaml", 'error: there is no file "plans/line.yaml", nor its folder\n'],
    [".", 'error: "." is a folder; a file is expected\n'],
    ["line.yaml/x", 'error: "line.yaml/x" cannot be read: not a directory\n'],
    ["", "error: the name of a file is empty; a file is expected, or - for standard input\n"],
    ["\u001b[2J", 'error: there is no file "␛[2J"\n'],
  ])("with the file %j ends with status 2 and says why", async (file, expected) => {
    expect(await refusal(["balance", file])).toBe(expected);
  });
});

describe("a number option", () => {
  test.each([
    ["--stations", "7", 7],
    ["--stations", "12", 12],
    ["--seconds", "0.5", 0.5],
    ["--seconds", "60s", 60],
    ["--seconds", "2 min", 120],
  ])("%s %s is read whole", async (option, text, value) => {
    let read: unknown;
    await runProbe({ args: ["balance", "line.yaml", option, text] }, async (_, __, options) => {
      read = options[option.slice(2)];
      return undefined;
    });
    expect(read).toBe(value);
  });

  const whole = "A whole number from 1 in plain digits is expected";
  test.each([
    ["--stations", "7.9", `${whole}; nearest: 7, 8.`],
    ["--stations", "0", `${whole}.`],
    ["--stations", "-3", `${whole}: it must not be negative; write 3 if that is meant.`],
    ["--stations", "1e3", `${whole}: write the number out in plain digits: 1000.`],
    ["--stations", "0x7", `${whole}: write the number out in plain digits: 7.`],
    ["--stations", "", `${whole}.`],
    ["--stations", "seven", `${whole}.`],
    ["--stations", "99999999999999999999", "At most 9007199254740991 is possible."],
    ["--seconds", "0", "A time above 0 is expected, such as 30 s."],
    [
      "--seconds",
      "1,5",
      'A time above 0 is expected: "1,5" is not a time: decimals take a point; write 1.5.',
    ],
    [
      "--seconds",
      "-1",
      'A time above 0 is expected: "-1" is not a time: it must not be negative; write 1 if that is meant.',
    ],
    [
      "--seconds",
      "NaN",
      'A time above 0 is expected: "NaN" is not a time: write a number and a unit (s, min, h, cmin, tmu), such as 40 s, or mm:ss.',
    ],
  ])("%s %j is refused, saying what is expected and near", async (option, text, why) => {
    const flags = option === "--stations" ? "--stations <n>" : "--seconds <s>";
    expect(await refusal(["balance", "line.yaml", option, text])).toBe(
      `error: option '${flags}' argument '${text}' is invalid. ${why}\n`,
    );
  });

  test("takes a negative value as a value, not as an option", async () => {
    let read: unknown;
    await runProbe({ args: ["balance", "line.yaml", "--cycle", "-5"] }, async (_, __, options) => {
      read = options.cycle;
      return undefined;
    });
    expect(read).toBe("-5");
  });
});

describe("help and version", () => {
  test.each([[["--help"]], [["help"]], [["help", "balance"]], [["balance", "--help"]]])(
    "%j goes to stdout with status 0",
    async (args) => {
      const ran = await runProbe({ args });
      expect([ran.status, ran.stderr]).toEqual([0, ""]);
      expect(ran.stdout).toMatch(/^Usage: linepoise .*\n[\s\S]*\n$/);
    },
  );

  test("the version is the one of the package", async () => {
    const { status, stdout, stderr } = await runProbe({ args: ["--version"] });
    const { version } = JSON.parse(readFileSync(new URL("../../../package.json", import.meta.url), "utf8"));
    expect({ status, stdout, stderr }).toEqual({ status: 0, stdout: `${version}\n`, stderr: "" });
  });
});
